import { NEARLY_AIR_O2_PERCENT } from "./dilution.ts";

/** What Siegert's formula knows of a fuel: published constants that stand for its composition. */
export interface SiegertConstants {
  readonly a: number;
  readonly b: number;
}

/** 1. BImSchV of 26 January 2010 (Germany), annex 2, 3.4.1. Other countries have others: Flanders takes 0.65 for natural gas. */
export const SIEGERT = {
  "natural-gas": { a: 0.66, b: 0.009 },
  lpg: { a: 0.63, b: 0.008 },
} as const satisfies Record<string, SiegertConstants>;

/** O2 of air in that law, vol-%. */
const LAW_AIR_O2 = 21;

/**
 * Siegert's flue loss, % of the net heating value: (tF - tA) (A/(21 - O2) + B), temperatures in °C, O2 in vol-% dry. Nothing
 * that condenses is credited. Null where the flue is colder than the air, at O2 outside 0 to below 20.5 %, and where a number
 * is none.
 */
export function siegertLoss(
  { a, b }: SiegertConstants,
  flueTemperature: number,
  airTemperature: number,
  o2: number,
): number | null {
  const rise = flueTemperature - airTemperature;
  if (!(rise >= 0 && Number.isFinite(rise) && o2 >= 0 && o2 < NEARLY_AIR_O2_PERCENT)) return null;
  return rise * (a / (LAW_AIR_O2 - o2) + b);
}
