import {
  MOLECULES,
  type Molecule,
  type MoleculeId,
  type ReferenceTemperature,
  WATER_LATENT,
} from "./molecule.ts";

/** Mole fractions of a fuel gas; they sum to one. */
export type Composition = readonly (readonly [MoleculeId, number])[];

/** What one mole of a fuel gas holds and gives: the mean of its molecules. */
export interface FuelGas extends Molecule {
  /** Net heating value, kJ/mol, by combustion reference temperature. */
  readonly net: Readonly<Record<ReferenceTemperature, number>>;
}

export const FUEL_IDS = ["natural-gas", "propane", "methane", "butane"] as const;
export type FuelId = (typeof FUEL_IDS)[number];

/**
 * The fuels, one row each. Natural gas is the pipeline gas of the worked example of AGA Report No. 5
 * (1034.8 Btu/ft3 gross, within 1 % of the US average). Commercial propane and butane are mixtures;
 * the pure gases stand in for them.
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

/** One mole of a gas of this composition. Throws RangeError where the fractions do not sum to one: a data error. */
export function fuelGas(composition: Composition): FuelGas {
  const total = composition.reduce((sum, [, fraction]) => sum + fraction, 0);
  if (Math.abs(total - 1) > 1e-5) throw new RangeError(`mole fractions sum to ${total}, expected 1`);
  const mean = (of: (molecule: Molecule) => number) =>
    composition.reduce((sum, [id, fraction]) => sum + fraction * of(MOLECULES[id]), 0);
  const h = mean((molecule) => molecule.h);
  const gross = { 15: mean((molecule) => molecule.gross[15]), 25: mean((molecule) => molecule.gross[25]) };
  return {
    c: mean((molecule) => molecule.c),
    h,
    o: mean((molecule) => molecule.o),
    n: mean((molecule) => molecule.n),
    molarMass: mean((molecule) => molecule.molarMass),
    gross,
    // ISO 6976:2016, 6.2: the water of combustion leaves as vapour.
    net: { 15: gross[15] - (h / 2) * WATER_LATENT[15], 25: gross[25] - (h / 2) * WATER_LATENT[25] },
  };
}

const GASES: Readonly<Record<FuelId, FuelGas>> = {
  "natural-gas": fuelGas(FUELS["natural-gas"]),
  propane: fuelGas(FUELS.propane),
  methane: fuelGas(FUELS.methane),
  butane: fuelGas(FUELS.butane),
};

/** The gas of a named fuel. */
export function gasOf(fuel: FuelId): FuelGas {
  return GASES[fuel];
}
