import { coAirFree } from "../combustion/carbon-monoxide.ts";
import { o2FromCo2 } from "../combustion/dilution.ts";
import type { StandingReading } from "../visit/state.ts";
import { companion } from "./current.ts";
import { limitFor } from "./limits.ts";
import { dusted, place } from "./resolution.ts";
import { tooEarly } from "./settle.ts";
import type { Situation } from "./situation.ts";

/**
 * CO corrected to air-free, ppm, above which vented heating equipment fails: 400 ppm, ANSI Z21 (Z21.13 for boilers) as
 * quoted in check-values section 4, source S21.
 */
export const AIR_FREE_MAX = 400;

/** With CO above its limit and CO2 still in its band, leaner is tried up to this much of the limit. Our own caution. */
const SLIGHTLY = 1.5;

/** The upper share of a band in which a mixture counts as rich. Our own caution. */
const UPPER = 0.3;

/** CO corrected to air-free by the O2, else the CO2, of the same firing, ppm; null where neither is known. */
export function airFreeOf(s: Situation, co: StandingReading): number | null {
  const o2 = companion(s, co, "o2")?.reading.value;
  const co2 = companion(s, co, "co2")?.reading.value;
  const oxygen = o2 ?? (co2 === undefined ? null : o2FromCo2(s.state.head.fuel, co2));
  return oxygen === null ? null : coAirFree(co.reading.value, oxygen);
}

/** Whether the CO2 that belongs to a CO had settled above its band. */
export function isRich(s: Situation, co: StandingReading): boolean {
  return placeInBand(s, co) === "above";
}

/**
 * Whether richness explains a CO that is too high, so that turning leaner is the cure: CO2 above its band, or in the top of
 * it with CO a little over its limit.
 */
export function leanerCures(s: Situation, co: StandingReading): boolean {
  const where = placeInBand(s, co);
  if (where !== "top") return where === "above";
  const most = limitFor(s, co.reading)?.max;
  const airFree = airFreeOf(s, co);
  if (typeof most !== "number" || co.reading.value > SLIGHTLY * most) return false;
  return airFree === null || airFree <= AIR_FREE_MAX;
}

function placeInBand(s: Situation, co: StandingReading): "above" | "top" | "elsewhere" {
  const co2 = companion(s, co, "co2");
  const limit = co2 && tooEarly(s, co2) === 0 ? limitFor(s, co2.reading) : null;
  if (!co2 || !limit || limit.max === null) return "elsewhere";
  const { value } = co2.reading;
  if (place(value, limit) === 1) return "above";
  const from = limit.min === null ? limit.max : limit.max - UPPER * (limit.max - limit.min);
  return value >= dusted(from) ? "top" : "elsewhere";
}
