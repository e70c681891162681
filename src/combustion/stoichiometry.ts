import type { FuelGas } from "./composition.ts";

/** Mole fraction of oxygen in dry air. Handbooks take 0.209 to 0.21, which moves CO2max of methane by 0.06 %. */
export const AIR_OXYGEN = 0.2095;

/** Complete combustion without excess air. Volumes are m3 per m3 of gas (ideal gases, dry air, equal conditions). */
export interface Stoichiometry {
  readonly oxygen: number;
  readonly air: number;
  readonly co2: number;
  readonly water: number;
  readonly nitrogen: number;
  readonly dryFlue: number;
  readonly wetFlue: number;
  /** The most CO2 the dry flue gas can hold, vol-%. */
  readonly co2Max: number;
}

/** Complete combustion of one m3 of gas with just enough dry air; argon is counted as nitrogen. */
export function stoichiometry(gas: FuelGas): Stoichiometry {
  const oxygen = gas.c + gas.h / 4 - gas.o / 2;
  const air = oxygen / AIR_OXYGEN;
  const nitrogen = gas.n / 2 + air - oxygen;
  const dryFlue = gas.c + nitrogen;
  const water = gas.h / 2;
  return {
    oxygen,
    air,
    co2: gas.c,
    water,
    nitrogen,
    dryFlue,
    wetFlue: dryFlue + water,
    co2Max: (100 * gas.c) / dryFlue,
  };
}
