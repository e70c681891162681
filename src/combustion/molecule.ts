/**
 * The molecules a fuel gas may hold, from ISO 6976:2016: atoms and molar mass (table A.2), summation factors of the
 * compression factor (table A.3), ideal-gas gross heating values (table A.4). Inert molecules have no heating value.
 */
export interface Molecule {
  readonly c: number;
  readonly h: number;
  readonly o: number;
  readonly n: number;
  /** kg/kmol. */
  readonly molarMass: number;
  /** Summation factor s, no unit, by volume reference temperature. */
  readonly summation: Readonly<Record<VolumeTemperature, number>>;
  /** Ideal-gas gross heating value, kJ/mol, by combustion reference temperature. */
  readonly gross: Readonly<Record<CombustionTemperature, number>>;
}

/** Reference temperature at which a gas volume counts, °C. 15.55 stands for 60 °F. */
export type VolumeTemperature = 0 | 15 | 15.55 | 20;

/** Reference temperature of combustion, °C. Editions and temperatures must never be mixed. */
export type CombustionTemperature = VolumeTemperature | 25;

/** Enthalpy of vaporisation of water, kJ/mol: ISO 6976:2016, table A.4 (ideal-gas vapour). */
export const WATER_LATENT: Readonly<Record<CombustionTemperature, number>> = {
  0: 45.064,
  15: 44.431,
  15.55: 44.408,
  20: 44.222,
  25: 44.013,
};

const INERT: Heats = [0, 0, 0, 0, 0];

// Atoms C H O N; molar mass; s at 0, 15, 15.55, 20 °C; gross heating value at 0, 15, 15.55, 20, 25 °C.
export const MOLECULES = {
  methane: molecule(
    [1, 4, 0, 0],
    16.04246,
    [0.04886, 0.04452, 0.04437, 0.04317],
    [892.92, 891.51, 891.46, 891.05, 890.58],
  ),
  ethane: molecule(
    [2, 6, 0, 0],
    30.06904,
    [0.0997, 0.0919, 0.0916, 0.0895],
    [1564.35, 1562.14, 1562.06, 1561.42, 1560.69],
  ),
  propane: molecule(
    [3, 8, 0, 0],
    44.09562,
    [0.1465, 0.1344, 0.134, 0.1308],
    [2224.03, 2221.1, 2220.99, 2220.13, 2219.17],
  ),
  "n-butane": molecule(
    [4, 10, 0, 0],
    58.1222,
    [0.2022, 0.184, 0.1834, 0.1785],
    [2883.35, 2879.76, 2879.63, 2878.58, 2877.4],
  ),
  isobutane: molecule(
    [4, 10, 0, 0],
    58.1222,
    [0.1885, 0.1722, 0.1717, 0.1673],
    [2874.21, 2870.58, 2870.45, 2869.39, 2868.2],
  ),
  "n-pentane": molecule(
    [5, 12, 0, 0],
    72.14878,
    [0.2586, 0.2361, 0.2354, 0.2295],
    [3542.91, 3538.6, 3538.45, 3537.19, 3535.77],
  ),
  isopentane: molecule(
    [5, 12, 0, 0],
    72.14878,
    [0.2458, 0.2251, 0.2244, 0.2189],
    [3536.01, 3531.68, 3531.52, 3530.25, 3528.83],
  ),
  neopentane: molecule(
    [5, 12, 0, 0],
    72.14878,
    [0.2245, 0.204, 0.2033, 0.1979],
    [3521.75, 3517.44, 3517.28, 3516.02, 3514.61],
  ),
  "n-hexane": molecule(
    [6, 14, 0, 0],
    86.17536,
    [0.3319, 0.3001, 0.299, 0.2907],
    [4203.24, 4198.24, 4198.06, 4196.6, 4194.95],
  ),
  propylene: molecule(
    [3, 6, 0, 0],
    42.07974,
    [0.1381, 0.1267, 0.1263, 0.1232],
    [2061.57, 2059.43, 2059.35, 2058.73, 2058.02],
  ),
  hydrogen: molecule(
    [0, 2, 0, 0],
    2.01588,
    [-0.01, -0.01, -0.01, -0.01],
    [286.64, 286.15, 286.13, 285.99, 285.83],
  ),
  "carbon-monoxide": molecule(
    [1, 0, 1, 0],
    28.0101,
    [0.0258, 0.0217, 0.0215, 0.0203],
    [282.8, 282.91, 282.91, 282.95, 282.98],
  ),
  "carbon-dioxide": molecule([1, 0, 2, 0], 44.0095, [0.0821, 0.0752, 0.0749, 0.073], INERT),
  nitrogen: molecule([0, 0, 0, 2], 28.0134, [0.0214, 0.017, 0.0169, 0.0156], INERT),
  oxygen: molecule([0, 0, 2, 0], 31.9988, [0.0311, 0.0276, 0.0275, 0.0265], INERT),
} as const satisfies Record<string, Molecule>;

export type MoleculeId = keyof typeof MOLECULES;

type Four = readonly [number, number, number, number];
type Heats = readonly [number, number, number, number, number];

function molecule([c, h, o, n]: Four, molarMass: number, s: Four, gross: Heats): Molecule {
  return {
    c,
    h,
    o,
    n,
    molarMass,
    summation: { 0: s[0], 15: s[1], 15.55: s[2], 20: s[3] },
    gross: { 0: gross[0], 15: gross[1], 15.55: gross[2], 20: gross[3], 25: gross[4] },
  };
}
