import { NEARLY_AIR_O2_PERCENT } from "./dilution.ts";

/**
 * O2 of air in the air-free formula, vol-%. The published formula of the trade has 20.9 (CO x 20.9/(20.9 - O2)), not the
 * 20.95 of dry air; it reads higher by at most 1.2 % at O2 below 18 %, on the safe side.
 */
const AIR_FREE_O2 = 20.9;

/** Pure CO, ppm: there is no more. */
const ALL_CO = 1_000_000;

/**
 * CO as it would be without excess air, ppm, from CO (ppm, dry) and O2 (vol-%, dry). Null where either is negative, not
 * a number or more than all, and at O2 of 20.5 % or more, where the sample is nearly fresh air.
 */
export function coAirFree(co: number, o2: number): number | null {
  if (!(co >= 0 && co <= ALL_CO && o2 >= 0 && o2 < NEARLY_AIR_O2_PERCENT)) return null;
  return co * (AIR_FREE_O2 / (AIR_FREE_O2 - o2));
}

/** CO/CO2, both as vol-%, without unit, from CO in ppm and CO2 in vol-%. Null where CO2 is not above 0 or CO not from 0 to all. */
export function coCo2Ratio(co: number, co2: number): number | null {
  if (!(co >= 0 && co <= ALL_CO && co2 > 0)) return null;
  const ratio = co / 10_000 / co2;
  return Number.isFinite(ratio) ? ratio : null;
}
