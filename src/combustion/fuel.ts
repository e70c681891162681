import { type Composition, compositionProblems, type FuelGas, fuelGas } from "./composition.ts";
import type { Problem } from "./problem.ts";

export const FUEL_IDS = ["natural-gas", "propane", "methane", "butane"] as const;
export type FuelId = (typeof FUEL_IDS)[number];

/** A fuel by its name or by its own composition. */
export type AnyFuel = FuelId | Composition;

/**
 * The fuels, one row each. Natural gas is the pipeline gas of the worked example of AGA Report No. 5
 * (1034.8 Btu/ft3 gross, within 1 % of the US average); give your own composition where you know it. Commercial propane
 * and butane are mixtures; the pure gases stand in for them.
 */
export const FUELS: Readonly<Record<FuelId, Composition>> = {
  "natural-gas": [
    ["methane", 0.906724],
    ["ethane", 0.045279],
    ["propane", 0.00828],
    ["isobutane", 0.001037],
    ["n-butane", 0.001563],
    ["isopentane", 0.000321],
    ["n-pentane", 0.000443],
    ["n-hexane", 0.000393],
    ["nitrogen", 0.031284],
    ["carbon-dioxide", 0.004676],
  ],
  propane: [["propane", 1]],
  methane: [["methane", 1]],
  butane: [["n-butane", 1]],
};

const GASES: Readonly<Record<FuelId, FuelGas>> = {
  "natural-gas": fuelGas(FUELS["natural-gas"]),
  propane: fuelGas(FUELS.propane),
  methane: fuelGas(FUELS.methane),
  butane: fuelGas(FUELS.butane),
};

/** The gas of a named fuel or of a composition. Throws RangeError where a composition's fractions do not sum to one. */
export function gasOf(fuel: AnyFuel): FuelGas {
  return typeof fuel === "string" ? GASES[fuel] : fuelGas(fuel);
}

/** What is wrong with a fuel: none with a named one. Where there is none, `gasOf` does not throw. */
export function fuelProblems(fuel: AnyFuel): Problem<"fuel">[] {
  if (typeof fuel === "string") return [];
  return compositionProblems(fuel).map((message) => ({ path: "fuel", message }));
}
