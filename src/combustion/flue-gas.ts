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
import { type FuelId, gasOf } from "./fuel.ts";
import { saturationTemperature } from "./saturation.ts";
import { type StackLoss, stackLoss } from "./stack-loss.ts";
import { stoichiometry } from "./stoichiometry.ts";

/** What was measured: O2 or CO2 of the dry flue gas in vol-%, never both, and what else is known. */
export type FlueGasInput = {
  readonly fuel: FuelId;
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

/** What is wrong with one field of the input and what was expected. */
export interface FlueGasProblem {
  readonly path: "o2" | "co2" | "co" | "flueTemperature" | "airTemperature" | "altitude";
  readonly message: string;
}

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
  const o2 = input.o2 ?? o2FromCo2(input.fuel, input.co2 ?? Number.NaN);
  const co2 = input.co2 ?? co2FromO2(input.fuel, input.o2 ?? Number.NaN);
  const pressure = atmosphericPressure(input.altitude ?? 0);
  if (problems.length > 0 || o2 === null || co2 === null || pressure === null) return { ok: false, problems };

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
  const problems: FlueGasProblem[] = [];
  const expect = (path: FlueGasProblem["path"], holds: boolean, expected: string, unit: string) => {
    if (!holds) problems.push({ path, message: `expected ${expected}, got ${input[path]}${unit}` });
  };
  const within = (path: FlueGasProblem["path"], min: number, max: number, unit: string) => {
    const value = input[path];
    if (value !== undefined) expect(path, value >= min && value <= max, `${min} to ${max}${unit}`, unit);
  };

  if (input.o2 !== undefined) {
    const { o2 } = input;
    const range = `0 to below ${NEARLY_AIR_O2_PERCENT} % (more is nearly fresh air, which holds ${AIR_O2_PERCENT} %)`;
    expect("o2", o2 >= 0 && o2 < NEARLY_AIR_O2_PERCENT, range, " %");
  } else {
    const o2 = o2FromCo2(input.fuel, input.co2);
    const least = co2FromO2(input.fuel, NEARLY_AIR_O2_PERCENT) ?? 0;
    const range = `above ${least.toFixed(2)} % (less is nearly fresh air) to the ${co2Max(input.fuel).toFixed(2)} % that ${input.fuel} can make`;
    expect("co2", o2 !== null && o2 < NEARLY_AIR_O2_PERCENT, range, " %");
  }
  within("co", 0, quantityOf("co").max, " ppm");
  // A burning appliance's flue gas is not below freezing, whatever the quantity's own bounds allow.
  within("flueTemperature", 0, quantityOf("flue-temperature").max, " °C");
  within("airTemperature", quantityOf("air-temperature").min, quantityOf("air-temperature").max, " °C");
  within("altitude", quantityOf("altitude").min, quantityOf("altitude").max, " m");
  if (input.flueTemperature !== undefined && input.airTemperature !== undefined && problems.length === 0) {
    const holds = input.flueTemperature >= input.airTemperature;
    expect("flueTemperature", holds, `no less than the air temperature of ${input.airTemperature} °C`, " °C");
  }
  return problems;
}
