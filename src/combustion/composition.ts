import { z } from "zod";
import { MOLECULES, type Molecule, type MoleculeId, WATER_LATENT } from "./molecule.ts";
import type { Problem } from "./problem.ts";

/** Mole fractions of a fuel gas; they sum to one. */
export type Composition = readonly (readonly [MoleculeId, number])[];

/** What one mole of a fuel gas holds and gives: the mean of its molecules. */
export interface FuelGas extends Molecule {
  /** Net heating value of the ideal gas, kJ/mol, by combustion reference temperature. */
  readonly net: Molecule["gross"];
}

/** One mole of a gas of this composition. Throws RangeError where the fractions do not sum to one: a data error. */
export function fuelGas(composition: Composition): FuelGas {
  const total = sumOf(composition);
  if (!isOne(total)) throw new RangeError(`mole fractions sum to ${total}, expected 1`);
  const mean = (of: (molecule: Molecule) => number) =>
    composition.reduce((sum, [id, fraction]) => sum + fraction * of(MOLECULES[id]), 0);
  const each = (of: (temperature: keyof Molecule["gross"]) => number): Molecule["gross"] => ({
    0: of(0),
    15: of(15),
    15.55: of(15.55),
    20: of(20),
    25: of(25),
  });
  const h = mean((molecule) => molecule.h);
  const gross = each((temperature) => mean((molecule) => molecule.gross[temperature]));
  return {
    c: mean((molecule) => molecule.c),
    h,
    o: mean((molecule) => molecule.o),
    n: mean((molecule) => molecule.n),
    molarMass: mean((molecule) => molecule.molarMass),
    summation: {
      0: mean((molecule) => molecule.summation[0]),
      15: mean((molecule) => molecule.summation[15]),
      15.55: mean((molecule) => molecule.summation[15.55]),
      20: mean((molecule) => molecule.summation[20]),
    },
    gross,
    // ISO 6976:2016, 6.2: the water of combustion leaves as vapour.
    net: each((temperature) => gross[temperature] - (h / 2) * WATER_LATENT[temperature]),
  };
}

/** How far the fractions of a gas analysis may sum from one: its figures are rounded. They are then scaled to one. */
const SUM_TOLERANCE = 0.005 + 1e-9; // and the noise of adding

/** Oxygen that a gas must need to burn at all, mole per mole: an eighth of methane's, below any fuel gas but blast-furnace gas. */
const LEAST_OXYGEN = 0.25;

const MOLECULE_IDS = Object.keys(MOLECULES).join(", ");

const Fraction = z.number({
  error: ({ input }) => `expected a mole fraction of 0 to 1, got ${shown(input)}`,
});

/**
 * A composition as people write it, `{"methane": 0.93, "ethane": 0.07}`: mole fractions by molecule, each 0 to 1, that sum
 * to one within 0.005 (the rounding of an analysis) and are scaled to one. The gas must burn and hold carbon. Every problem
 * is told, with the molecule as its path.
 */
export const CompositionSchema = z
  .record(z.string(), Fraction)
  .transform((fractions, context): Composition => {
    const { composition, problems } = normalised(fractions);
    for (const { path, message } of problems) {
      context.addIssue({ code: "custom", path: path === "" ? [] : [path], message });
    }
    return problems.length > 0 ? z.NEVER : composition;
  });

function normalised(fractions: Readonly<Record<string, number>>): {
  composition: Composition;
  problems: readonly Problem<string>[];
} {
  const rows: [MoleculeId, number][] = [];
  const problems: Problem<string>[] = [];
  for (const [name, fraction] of Object.entries(fractions)) {
    const inside = fraction >= 0 && fraction <= 1;
    if (!inside)
      problems.push({ path: name, message: `expected a mole fraction of 0 to 1, got ${fraction}` });
    if (!isMolecule(name)) problems.push({ path: name, message: `expected one of ${MOLECULE_IDS}` });
    else if (inside && fraction > 0) rows.push([name, fraction]);
  }
  if (problems.length > 0) return { composition: [], problems };

  const total = sumOf(rows);
  if (!(Math.abs(total - 1) <= SUM_TOLERANCE)) {
    const got = Number(total.toPrecision(6));
    return {
      composition: [],
      problems: [{ path: "", message: `expected mole fractions that sum to 1 within 0.005, got ${got}` }],
    };
  }
  const composition = rows.map(([name, fraction]) => [name, fraction / total] as const);
  return { composition, problems: noFuel(composition).map((message) => ({ path: "", message })) };
}

/** Why a composition is no fuel that can be reckoned with: none where it is as `CompositionSchema` gives it. Never throws. */
export function compositionProblems(composition: Composition): string[] {
  const outside = composition.filter(([, fraction]) => !(fraction >= 0 && fraction <= 1));
  if (outside.length > 0)
    return outside.map(([id, fraction]) => `expected a mole fraction of ${id} of 0 to 1, got ${fraction}`);
  const total = sumOf(composition);
  if (!isOne(total)) return [`expected mole fractions that sum to 1, got ${Number(total.toPrecision(6))}`];
  return noFuel(composition);
}

function noFuel(composition: Composition): string[] {
  const { c, h, o } = fuelGas(composition);
  if (c + h / 4 - o / 2 < LEAST_OXYGEN)
    return ["expected a gas that burns, got one that needs next to no oxygen"];
  return c === 0 ? ["expected a gas with carbon: CO2 says nothing of a flame without it"] : [];
}

function sumOf(composition: Composition): number {
  return composition.reduce((sum, [, fraction]) => sum + fraction, 0);
}

function isOne(total: number): boolean {
  return Math.abs(total - 1) <= 1e-5;
}

function isMolecule(name: string): name is MoleculeId {
  return Object.hasOwn(MOLECULES, name);
}

function shown(value: unknown): string {
  if (typeof value === "string") return `"${value}"`;
  return typeof value === "number" || value === null ? String(value) : typeof value;
}
