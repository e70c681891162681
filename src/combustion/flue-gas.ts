import { quantityOf } from "../measure/quantity.ts";
import { atmosphericPressure } from "./atmosphere.ts";
import { coAirFree, coCo2Ratio } from "./carbon-monoxide.ts";
import {
  AIR_O2_PERCENT,
  co2FromO2,
  co2Max,
  lambdaFromO2,
  NEARLY_AIR_O2_PERCENT,
  o2FromCo2,
} from "./dilution.ts";
import { type AnyFuel, fuelProblems, gasOf } from "./fuel.ts";
import { outOf, type Problem } from "./problem.ts";
import { saturationTemperature } from "./saturation.ts";
import { type StackLoss, stackLoss } from "./stack-loss.ts";
import { stoichiometry } from "./stoichiometry.ts";

/** What was measured: O2 or CO2 of the dry flue gas in vol-%, never both, and what else is known. */
export type FlueGasInput = {
  /** A named fuel, or a composition as `CompositionSchema` gives it. */
  readonly fuel: AnyFuel;
  /** ppm, dry, 0 to 20000. */
  readonly co?: number | undefined;
  /** °C, 0 to 600, not below the air temperature. */
  readonly flueTemperature?: number | undefined;
  /** Temperature of the combustion air, °C, -40 to 150. */
  readonly airTemperature?: number | undefined;
  /** m above sea level, -500 to 6000; sea level where not given. */
  readonly altitude?: number | undefined;
} & ({ readonly o2: number; readonly co2?: undefined } | { readonly co2: number; readonly o2?: undefined });

/** The flue gas of complete combustion with dry air; CO is taken as a trace that does not move O2 or CO2. */
export interface FlueGas extends Nullable<StackLoss> {
  /** Most CO2 of the dry flue gas of this fuel, vol-%. */
  readonly co2Max: number;
  /** vol-%, dry. */
  readonly co2: number;
  /** vol-%, dry. */
  readonly o2: number;
  /** Air ratio, 1 or more. */
  readonly lambda: number;
  readonly excessAirPercent: number;
  /** ppm at 0 % O2, dry; null without CO. */
  readonly coAirFree: number | null;
  /** CO/CO2, both vol-%, no unit; null without CO. */
  readonly coCo2Ratio: number | null;
  /** Water dew point at the pressure of the altitude, °C; null below 0 °C, where frost forms instead. */
  readonly dewPoint: number | null;
  /**
   * Sensible heat of the whole flue gas above the air temperature, its water counted as vapour: % of the **gross**
   * heating value. Null unless both temperatures are given, as are the three below. Siegert's flue loss, which is on
   * the net heating value, is 100 - efficiencyNetPercent above the dew point.
   */
  readonly lossDryPercent: number | null;
  /**
   * Heat of vaporisation carried off by water that leaves as vapour: % of the **gross** heating value; falls below the
   * dew point. lossDryPercent + lossLatentPercent + efficiencyGrossPercent = 100.
   */
  readonly lossLatentPercent: number | null;
  /** Combustion efficiency on the net heating value; above 100 where enough condenses. Casing loss is not known. */
  readonly efficiencyNetPercent: number | null;
  /** The same useful heat on the gross heating value; never above 100. */
  readonly efficiencyGrossPercent: number | null;
  /** Dry air at this air ratio (not the stoichiometric need), m3 per m3 of gas; ideal gases at equal conditions. */
  readonly airToFuelVolume: number;
  /** Dry flue gas at this air ratio, m3 per m3 of gas. */
  readonly dryFlueVolume: number;
  /** Flue gas with all its water as vapour at this air ratio, m3 per m3 of gas. */
  readonly wetFlueVolume: number;
}

type Nullable<T> = { readonly [K in keyof T]: T[K] | null };

export type FlueGasProblem = Problem<
  "fuel" | "o2" | "co2" | "co" | "flueTemperature" | "airTemperature" | "altitude"
>;

export type FlueGasResult =
  | { readonly ok: true; readonly flueGas: FlueGas }
  | { readonly ok: false; readonly problems: readonly FlueGasProblem[] };

/**
 * All that follows from one flue-gas measurement. Impossible input gives every problem, never NaN or Infinity.
 * Constants: 20.95 % O2 in dry air, ISO 6976:2016 heating values, NASA-7 heat capacities, IAPWS-IF97 saturation,
 * ISO 2533 pressure.
 */
export function flueGas(input: FlueGasInput): FlueGasResult {
  const problems = problemsOf(input);
  if (problems.length > 0) return { ok: false, problems };
  const o2 = input.o2 ?? o2FromCo2(input.fuel, input.co2 ?? Number.NaN);
  const co2 = input.co2 ?? co2FromO2(input.fuel, input.o2 ?? Number.NaN);
  const pressure = atmosphericPressure(input.altitude ?? 0);
  if (o2 === null || co2 === null || pressure === null) return { ok: false, problems };

  const gas = gasOf(input.fuel);
  const burnt = stoichiometry(gas);
  const lambda = lambdaFromO2(burnt, o2);
  const excessAir = (lambda - 1) * burnt.air;
  const wetFlueVolume = burnt.wetFlue + excessAir;
  const { flueTemperature, airTemperature } = input;
  const loss =
    flueTemperature === undefined || airTemperature === undefined
      ? NO_LOSS
      : stackLoss(gas, burnt, { lambda, flueTemperature, airTemperature, pressure });
  if (loss.efficiencyNetPercent !== null && loss.efficiencyNetPercent < 0) {
    const message = `expected a temperature that this flame can reach with so much air, got ${flueTemperature} °C`;
    return { ok: false, problems: [{ path: "flueTemperature", message }] };
  }
  return {
    ok: true,
    flueGas: {
      co2Max: burnt.co2Max,
      co2,
      o2,
      lambda,
      excessAirPercent: 100 * (lambda - 1),
      coAirFree: input.co === undefined ? null : coAirFree(input.co, o2),
      coCo2Ratio: input.co === undefined ? null : coCo2Ratio(input.co, co2),
      dewPoint: saturationTemperature((pressure * burnt.water) / wetFlueVolume),
      ...loss,
      airToFuelVolume: lambda * burnt.air,
      dryFlueVolume: burnt.dryFlue + excessAir,
      wetFlueVolume,
    },
  };
}

const NO_LOSS: Nullable<StackLoss> = {
  lossDryPercent: null,
  lossLatentPercent: null,
  efficiencyNetPercent: null,
  efficiencyGrossPercent: null,
};

function problemsOf(input: FlueGasInput): FlueGasProblem[] {
  const { flueTemperature, airTemperature } = input;
  const unknownGas = fuelProblems(input.fuel);
  const problems = [
    ...unknownGas,
    // How much CO2 there can be hangs on the gas.
    ...(unknownGas.length > 0 && input.co2 !== undefined ? [] : dilutionProblems(input)),
    ...outOf("co", input.co, quantityOf("co"), "ppm"),
    // A burning appliance's flue gas is not below freezing, whatever the quantity's own bounds allow.
    ...outOf("flueTemperature", flueTemperature, { ...quantityOf("flue-temperature"), min: 0 }, "°C"),
    ...outOf("airTemperature", airTemperature, quantityOf("air-temperature"), "°C"),
    ...outOf("altitude", input.altitude, quantityOf("altitude"), "m"),
  ];
  if (problems.length > 0 || flueTemperature === undefined || airTemperature === undefined) return problems;
  if (flueTemperature >= airTemperature) return [];
  const message = `expected no less than the air temperature of ${airTemperature} °C, got ${flueTemperature} °C`;
  return [{ path: "flueTemperature", message }];
}

function dilutionProblems({ fuel, o2, co2 }: FlueGasInput): FlueGasProblem[] {
  if (o2 !== undefined) {
    if (o2 >= 0 && o2 < NEARLY_AIR_O2_PERCENT) return [];
    const range = `0 to below ${NEARLY_AIR_O2_PERCENT} % (more is nearly fresh air, which holds ${AIR_O2_PERCENT} %)`;
    return [{ path: "o2", message: `expected ${range}, got ${o2} %` }];
  }
  const oxygen = o2FromCo2(fuel, co2 ?? Number.NaN);
  if (oxygen !== null && oxygen < NEARLY_AIR_O2_PERCENT) return [];
  const least = co2FromO2(fuel, NEARLY_AIR_O2_PERCENT) ?? 0;
  const gas = typeof fuel === "string" ? fuel : "this gas";
  const range = `above ${least.toFixed(2)} % (less is nearly fresh air) to the ${co2Max(fuel).toFixed(2)} % that ${gas} can make`;
  return [{ path: "co2", message: `expected ${range}, got ${co2} %` }];
}
