import type { Dial } from "../measure/firing.ts";
import { quantityOf } from "../measure/quantity.ts";
import { factor } from "../measure/scale.ts";
import { atmosphericPressure, STANDARD_PRESSURE } from "./atmosphere.ts";
import { type AnyFuel, fuelProblems, gasOf } from "./fuel.ts";
import { gasProperties, METRIC_15_15 } from "./gas-properties.ts";
import { outOf, type Problem } from "./problem.ts";

/** A gas meter clocked, and the state of the gas in it. */
export interface MeterReading {
  readonly fuel: AnyFuel;
  /** Time that the volume took, s, 1 to 3600. */
  readonly seconds: number;
  /** The volume that passed: of one turn of the test dial, or of several. */
  readonly dial: Dial;
  /** Gas pressure at the meter above the atmosphere, mbar, 0 to 100; 0 where not given. */
  readonly gasPressure?: number | undefined;
  /** Gas temperature at the meter, °C, -40 to 60; 15 where not given, as on a meter that compensates for it. */
  readonly gasTemperature?: number | undefined;
  /** m above sea level, -500 to 6000; sea level where not given. */
  readonly altitude?: number | undefined;
}

export interface GasInput {
  /** Gas through the meter as it counts, m3/h. */
  readonly gasRateMeter: number;
  /** The same gas at 15 °C and 101.325 kPa, m3/h. */
  readonly gasRateReference: number;
  /** Heat input on the gross and on the net heating value, kW and Btu(IT)/h. */
  readonly inputGross: number;
  readonly inputNet: number;
  readonly inputGrossBtuPerHour: number;
  readonly inputNetBtuPerHour: number;
}

export type MeterProblem = Problem<
  "fuel" | "seconds" | "dial" | "gasPressure" | "gasTemperature" | "altitude"
>;

export type GasInputResult =
  | { readonly ok: true; readonly gasInput: GasInput }
  | { readonly ok: false; readonly problems: readonly MeterProblem[] };

const CUBIC_METRES: Readonly<Record<Dial["unit"], number>> = { "[ft_i]3": factor("[ft_i]3", "m3"), m3: 1 };
const BTU_PER_HOUR = factor("kW", "[Btu_IT]/h");

/** No test dial or counted volume of a building's meter is larger, m3. */
const MOST_VOLUME = 1000;

/** Gas volume rate, m3/h, from a volume (m3) and the seconds that it took: 3600 V/t. */
export function volumeRate(cubicMetres: number, seconds: number): number {
  return (3600 * cubicMetres) / seconds;
}

/**
 * Heat input by clocking the meter. The volume is corrected to 15 °C and 101.325 kPa by pressure and temperature; the
 * compression factor is taken as the reference's: 0.1 % for natural gas, 0.6 % for propane, at 0 °C or 3000 m. Heating values:
 * ISO 6976:2016, real gas, 15/15 °C. Impossible input gives every problem.
 */
export function gasInput(reading: MeterReading): GasInputResult {
  const problems = problemsOf(reading);
  if (problems.length > 0) return { ok: false, problems };
  const { seconds, dial, gasPressure = 0, gasTemperature = 15, altitude = 0 } = reading;
  const atmosphere = atmosphericPressure(altitude);
  const properties = gasProperties(gasOf(reading.fuel), METRIC_15_15);
  if (atmosphere === null || properties === null) return { ok: false, problems };

  const gasRateMeter = volumeRate(dial.value * CUBIC_METRES[dial.unit], seconds);
  const byPressure = (atmosphere + 100 * gasPressure) / STANDARD_PRESSURE;
  const byTemperature = (METRIC_15_15.volume + 273.15) / (gasTemperature + 273.15);
  const gasRateReference = gasRateMeter * byPressure * byTemperature;
  const kilowatts = (megajoules: number) => (gasRateReference * megajoules) / 3.6;
  const inputGross = kilowatts(properties.real.gross);
  const inputNet = kilowatts(properties.real.net);
  return {
    ok: true,
    gasInput: {
      gasRateMeter,
      gasRateReference,
      inputGross,
      inputNet,
      inputGrossBtuPerHour: inputGross * BTU_PER_HOUR,
      inputNetBtuPerHour: inputNet * BTU_PER_HOUR,
    },
  };
}

function problemsOf(reading: MeterReading): MeterProblem[] {
  return [
    ...fuelProblems(reading.fuel),
    ...outOf("seconds", reading.seconds, quantityOf("gas-meter-time"), "s"),
    ...volumeProblems(reading.dial.value * CUBIC_METRES[reading.dial.unit]),
    ...outOf("gasPressure", reading.gasPressure, { ...quantityOf("gas-pressure-inlet"), min: 0 }, "mbar"),
    ...outOf("gasTemperature", reading.gasTemperature, { min: -40, max: 60 }, "°C"),
    ...outOf("altitude", reading.altitude, quantityOf("altitude"), "m"),
  ];
}

function volumeProblems(volume: number): MeterProblem[] {
  if (volume > 0 && volume <= MOST_VOLUME) return [];
  const message = `expected a volume above 0 to ${MOST_VOLUME} m3, got ${Number(volume.toPrecision(6))} m3`;
  return [{ path: "dial", message }];
}
