import { airDensityRatio, codeDeratePercent, fixedOrificeInputRatio, premixInputRatio } from "./altitude.ts";
import { coMilligramsPerKilowattHour, fFactors, fuelFactor } from "./emission.ts";
import type { FlueGas, FlueGasInput } from "./flue-gas.ts";
import { type FuelId, gasOf } from "./fuel.ts";
import { gasProperties, METRIC_15_15, type VolumeProperties } from "./gas-properties.ts";
import { SIEGERT, siegertLoss } from "./siegert.ts";

type Nullable<T> = { readonly [K in keyof T]: T[K] | null };

/** What else follows from the gas, the flue gas and the place. */
export interface Details
  extends Nullable<Pick<VolumeProperties, "relativeDensity" | "wobbeGross" | "wobbeNet">> {
  /** MJ/m3, real gas at 15/15 °C, as are the Wobbe indices. */
  readonly heatingValueGross: number | null;
  readonly heatingValueNet: number | null;
  /** Siegert's flue loss with the German constants, % of net; null without both temperatures or a named fuel. */
  readonly siegertLossPercent: number | null;
  /** mg/kWh on the net heating value; null without CO. */
  readonly coMilligramsPerKilowattHour: number | null;
  /** EPA fuel factor Fo, no unit. */
  readonly fuelFactor: number | null;
  /** EPA F factors Fd and Fc of this gas, ft3 at 68 °F for a million Btu gross. */
  readonly fFactorDry: number;
  readonly fFactorCarbon: number;
  /** Ratios to sea level, no unit, and the code's derate, %. */
  readonly airDensityRatio: number | null;
  readonly premixInputRatio: number | null;
  readonly fixedOrificeInputRatio: number | null;
  readonly codeDeratePercent: number | null;
}

const FAMILY: Readonly<Record<FuelId, keyof typeof SIEGERT>> = {
  "natural-gas": "natural-gas",
  methane: "natural-gas",
  propane: "lpg",
  butane: "lpg",
};

/** Details of a flue gas that `flueGas` has computed from this input; the fuel's name chooses Siegert's constants. */
export function details(input: FlueGasInput, { o2, co2 }: FlueGas, fuelId: FuelId | null): Details {
  const { co, flueTemperature, airTemperature, altitude = 0 } = input;
  const gas = gasOf(input.fuel);
  const real = gasProperties(gas, METRIC_15_15)?.real;
  return {
    heatingValueGross: real?.gross ?? null,
    heatingValueNet: real?.net ?? null,
    relativeDensity: real?.relativeDensity ?? null,
    wobbeGross: real?.wobbeGross ?? null,
    wobbeNet: real?.wobbeNet ?? null,
    siegertLossPercent:
      fuelId === null || flueTemperature === undefined || airTemperature === undefined
        ? null
        : siegertLoss(SIEGERT[FAMILY[fuelId]], flueTemperature, airTemperature, o2),
    coMilligramsPerKilowattHour: co === undefined ? null : coMilligramsPerKilowattHour(gas, co, o2),
    fuelFactor: fuelFactor(o2, co2, co),
    ...fFactors(gas),
    airDensityRatio: airDensityRatio(altitude),
    premixInputRatio: premixInputRatio(altitude),
    fixedOrificeInputRatio: fixedOrificeInputRatio(altitude),
    codeDeratePercent: codeDeratePercent(altitude),
  };
}
