import { quantityOf } from "../measure/quantity.ts";
import { factor } from "../measure/scale.ts";
import { outOf, type Problem } from "./problem.ts";
import { water } from "./water.ts";

/** A water circuit: plain water, not a mixture with glycol, which carries less heat. */
export interface WaterCircuit {
  /** L/min, above 0 to 1000, as metered in the return pipe. */
  readonly flow: number;
  /** °C, 0 to 150. */
  readonly supplyTemperature: number;
  /** °C, 0 to 150, not above the supply. */
  readonly returnTemperature: number;
}

export interface WaterHeat {
  /** Heat that the water takes up from return to supply, kW and Btu(IT)/h. */
  readonly waterHeat: number;
  readonly waterHeatBtuPerHour: number;
}

export type WaterProblem = Problem<keyof WaterCircuit>;

export type WaterHeatResult =
  | { readonly ok: true; readonly waterHeat: WaterHeat }
  | { readonly ok: false; readonly problems: readonly WaterProblem[] };

/** Keeps water liquid up to 150 °C; between 1 and 6 bar the density moves by 0.03 %. */
const SYSTEM_PRESSURE = 5e5; // Pa

const CUBIC_METRES_PER_SECOND = factor("L/min", "m3/s");
const BTU_PER_HOUR = factor("kW", "[Btu_IT]/h");

/**
 * Heat to the water from flow and temperatures: volume flow x density at the meter x rise of enthalpy, both by IAPWS-IF97.
 * Impossible input gives every problem.
 */
export function waterHeat(circuit: WaterCircuit): WaterHeatResult {
  const problems = problemsOf(circuit);
  const supply = water(circuit.supplyTemperature, SYSTEM_PRESSURE);
  const back = water(circuit.returnTemperature, SYSTEM_PRESSURE);
  if (problems.length > 0 || supply === null || back === null) return { ok: false, problems };
  const kilowatts = circuit.flow * CUBIC_METRES_PER_SECOND * back.density * (supply.enthalpy - back.enthalpy);
  return { ok: true, waterHeat: { waterHeat: kilowatts, waterHeatBtuPerHour: kilowatts * BTU_PER_HOUR } };
}

function problemsOf({ flow, supplyTemperature, returnTemperature }: WaterCircuit): WaterProblem[] {
  const mostFlow = quantityOf("water-flow").max;
  // Colder water is ice, or no plain water.
  const range = { ...quantityOf("supply-temperature"), min: 0 };
  const problems: WaterProblem[] = [
    ...outOf("supplyTemperature", supplyTemperature, range, "°C"),
    ...outOf("returnTemperature", returnTemperature, range, "°C"),
  ];
  if (problems.length === 0 && supplyTemperature < returnTemperature) {
    const message = `expected no less than the return temperature of ${returnTemperature} °C, got ${supplyTemperature} °C`;
    problems.push({ path: "supplyTemperature", message });
  }
  if (flow > 0 && flow <= mostFlow) return problems;
  const message = `expected above 0 to ${mostFlow} L/min, got ${flow} L/min`;
  return [{ path: "flow", message }, ...problems];
}
