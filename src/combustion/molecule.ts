/**
 * The molecules a fuel gas may hold: atoms, molar mass (kg/kmol) and ideal-gas gross heating value (kJ/mol) at
 * 15 and 25 °C. Source: ISO 6976:2016, tables A.2 and A.4. Inert molecules have no heating value.
 */
export interface Molecule {
  readonly c: number;
  readonly h: number;
  readonly o: number;
  readonly n: number;
  readonly molarMass: number;
  readonly gross: Readonly<Record<ReferenceTemperature, number>>;
}

/** Combustion reference temperature, °C. Editions and temperatures must never be mixed. */
export type ReferenceTemperature = 15 | 25;

/** Enthalpy of vaporisation of water, kJ/mol: ISO 6976:2016, table A.4 (ideal-gas vapour). */
export const WATER_LATENT: Readonly<Record<ReferenceTemperature, number>> = { 15: 44.431, 25: 44.013 };

export const MOLECULES = {
  methane: molecule(1, 4, 0, 0, 16.04246, 891.51, 890.58),
  ethane: molecule(2, 6, 0, 0, 30.06904, 1562.14, 1560.69),
  propane: molecule(3, 8, 0, 0, 44.09562, 2221.1, 2219.17),
  "n-butane": molecule(4, 10, 0, 0, 58.1222, 2879.76, 2877.4),
  isobutane: molecule(4, 10, 0, 0, 58.1222, 2870.58, 2868.2),
  "n-pentane": molecule(5, 12, 0, 0, 72.14878, 3538.6, 3535.77),
  isopentane: molecule(5, 12, 0, 0, 72.14878, 3531.68, 3528.83),
  neopentane: molecule(5, 12, 0, 0, 72.14878, 3517.44, 3514.61),
  "n-hexane": molecule(6, 14, 0, 0, 86.17536, 4198.24, 4194.95),
  hydrogen: molecule(0, 2, 0, 0, 2.01588, 286.15, 285.83),
  "carbon-monoxide": molecule(1, 0, 1, 0, 28.0101, 282.91, 282.98),
  "carbon-dioxide": molecule(1, 0, 2, 0, 44.0095, 0, 0),
  nitrogen: molecule(0, 0, 0, 2, 28.0134, 0, 0),
} as const satisfies Record<string, Molecule>;

export type MoleculeId = keyof typeof MOLECULES;

function molecule(
  c: number,
  h: number,
  o: number,
  n: number,
  molarMass: number,
  gross15: number,
  gross25: number,
): Molecule {
  return { c, h, o, n, molarMass, gross: { 15: gross15, 25: gross25 } };
}
