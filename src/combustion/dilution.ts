import { type AnyFuel, gasOf } from "./fuel.ts";
import { AIR_OXYGEN, type Stoichiometry, stoichiometry } from "./stoichiometry.ts";

/** O2 of dry air, vol-%. */
export const AIR_O2_PERCENT = 100 * AIR_OXYGEN;

/**
 * From this O2 (vol-%) on, a sample is fresh air for our purpose: excess air and CO air-free run off to infinity, and
 * an analyser's own tolerance (about 0.3 vol-%, from memory of EN 50379) would more than half decide the result.
 */
export const NEARLY_AIR_O2_PERCENT = 20.5;

/** Half of the second decimal: CO2 typed as the rounded CO2max still counts as CO2max. */
const CO2_ROUNDING = 0.005;

/** The most CO2 that dry flue gas of this fuel can hold, vol-%. */
export function co2Max(fuel: AnyFuel): number {
  return stoichiometry(gasOf(fuel)).co2Max;
}

/** CO2 (vol-%, dry) that belongs to O2 (vol-%, dry, 0 to 20.95) for complete combustion; null outside that range. */
export function co2FromO2(fuel: AnyFuel, o2: number): number | null {
  if (!(o2 >= 0 && o2 <= AIR_O2_PERCENT)) return null;
  return co2Max(fuel) * (1 - o2 / AIR_O2_PERCENT);
}

/** O2 (vol-%, dry) that belongs to CO2 (vol-%, dry, 0 to CO2max) for complete combustion; null outside that range and on a gas without carbon. */
export function o2FromCo2(fuel: AnyFuel, co2: number): number | null {
  const most = co2Max(fuel);
  if (!(most > 0 && co2 >= 0 && co2 <= most + CO2_ROUNDING)) return null;
  return Math.max(0, AIR_O2_PERCENT * (1 - co2 / most));
}

/**
 * Air ratio at O2 (vol-%, dry, 0 to below 20.95). Exact: the dry flue gas is not as large as the air, so the short form
 * 20.95/(20.95 - O2) is too high (31 % excess air against 28 % at O2 5 % on methane).
 */
export function lambdaFromO2(burnt: Stoichiometry, o2: number): number {
  return 1 + (o2 * burnt.dryFlue) / (burnt.air * (AIR_O2_PERCENT - o2));
}
