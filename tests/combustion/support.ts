import { expect } from "vitest";
import { type FlueGas, type FlueGasInput, flueGas } from "../../src/combustion/flue-gas.ts";

/** Fails unless the value lies within the tolerance, both ends included, of the expected one. */
export function near(actual: number | null, expected: number, tolerance: number): void {
  if (actual === null) throw new Error(`expected ${expected}, got null`);
  const allowed = tolerance * (1 + 1e-9);
  expect(Math.abs(actual - expected), `${actual} against ${expected}`).toBeLessThanOrEqual(allowed);
}

/** The flue gas of input that must be possible. */
export function burn(input: FlueGasInput): FlueGas {
  const result = flueGas(input);
  if (!result.ok) throw new Error(JSON.stringify(result.problems));
  return result.flueGas;
}

/** Gases with published properties that are no fuels of the command line. */
export const GASES = {
  /** EN 437 reference gas G25. */
  g25: [
    ["methane", 0.86],
    ["nitrogen", 0.14],
  ],
  /** EN 437 reference gas G30. */
  g30: [
    ["n-butane", 0.5],
    ["isobutane", 0.5],
  ],
  /** ISO 6976:2016, annex D, example 1. */
  annexD1: [
    ["methane", 0.933212],
    ["ethane", 0.025656],
    ["propane", 0.015368],
    ["nitrogen", 0.01035],
    ["carbon-dioxide", 0.015414],
  ],
  /** ISO 6976:2016, annex D, example 3. */
  annexD3: [
    ["methane", 0.922393],
    ["ethane", 0.025358],
    ["propane", 0.01519],
    ["n-butane", 0.000523],
    ["isobutane", 0.001512],
    ["n-pentane", 0.002846],
    ["isopentane", 0.002832],
    ["neopentane", 0.001015],
    ["n-hexane", 0.002865],
    ["nitrogen", 0.01023],
    ["carbon-dioxide", 0.015236],
  ],
  ethane: [["ethane", 1]],
} as const;
