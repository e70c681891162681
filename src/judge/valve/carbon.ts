import type { Firing } from "../../measure/firing.ts";
import { companion, current, settled } from "../current.ts";
import { limitFor } from "../limits.ts";
import type { Situation } from "../situation.ts";

/** A CO, ppm, and the CO2, vol-%, at which it was read. */
export interface Pair {
  readonly co: number;
  readonly co2: number;
}

/** What is known of CO, to say what it may become at a firing when the mixture gets richer. */
export interface Carbon extends Pair {
  /** Growth of ln CO per vol-% CO2, cautious. */
  readonly slope: number;
  /** All that was read in this visit, at both firings: it is one burner. */
  readonly pairs: readonly Pair[];
  /** ppm. */
  readonly max: number;
}

/** Half a percent more CO2 is taken to double the CO: a cautious guess without source, until readings say it is worse. */
const SLOPE = Math.log(2) / 0.5;

/** CO grows ever faster on the rich side, so a slope that was seen is stretched; an analyser's few ppm do not count. */
const STRETCH = 1.3;
const FEW_PPM = 8;
/** Least difference in CO2, vol-%, from which anything is taken. */
const APART = 0.2;

/** What lies above the floor of CO, where that is known, may be 2.7 times as much for each fifth of a percent. Our own caution. */
const ABOVE_FLOOR = 1 / 0.2;

/** What was read at a richer mixture is believed with this reserve: another firing, another day of the analyser. */
const RESERVE = 1.2;

const FIRINGS: readonly Firing[] = ["high", "low"];

/** Null where CO, its CO2 or its limit is not known. */
export function carbonOf(s: Situation, firing: Firing): Carbon | null {
  const co = current(s, "co", firing) ?? settled(s, "co", firing).at(-1) ?? null;
  const co2 = co && companion(s, co, "co2");
  const max = co && limitFor(s, co.reading)?.max;
  if (!co || !co2 || typeof max !== "number") return null;
  const slope = slopeOf(pairsAt(s, firing));
  const pairs = FIRINGS.flatMap((each) => pairsAt(s, each));
  return { co: co.reading.value, co2: co2.reading.value, slope, pairs, max };
}

function pairsAt(s: Situation, firing: Firing): Pair[] {
  return settled(s, "co", firing).flatMap((co) => {
    const co2 = companion(s, co, "co2");
    return co2 ? [{ co: co.reading.value, co2: co2.reading.value }] : [];
  });
}

function slopeOf(pairs: readonly Pair[]): number {
  const ranges = rangesOf(pairs);
  let most = SLOPE;
  for (const rich of ranges) {
    for (const lean of ranges) {
      if (rich.co2 - lean.co2 < APART - DUST || rich.most - lean.least <= FEW_PPM) continue;
      const slope = Math.log(rich.most / Math.max(lean.least, FEW_PPM)) / (rich.co2 - lean.co2);
      most = Math.max(most, STRETCH * slope);
    }
  }
  return most;
}

/** The least and the most CO that was read at each CO2: of all pairs these two make the steepest slopes. */
function rangesOf(pairs: readonly Pair[]): { co2: number; least: number; most: number }[] {
  const ranges = new Map<number, { co2: number; least: number; most: number }>();
  for (const { co2, co } of pairs) {
    const range = ranges.get(co2);
    if (!range) ranges.set(co2, { co2, least: co, most: co });
    else ranges.set(co2, { co2, least: Math.min(range.least, co), most: Math.max(range.most, co) });
  }
  return [...ranges.values()];
}

const DUST = 1e-9;

/**
 * CO to expect at a CO2 in vol-%, ppm. Without more it grows by the slope. Where it was as low at a leaner mixture it stands on
 * its floor, and only what lies above that grows; where a richer mixture was read, it is no more than there.
 */
export function coAt({ co, co2, slope, pairs }: Carbon, there: number): number {
  const rise = Math.max(0, there - co2);
  const bySlope = Math.max(co, FEW_PPM) * Math.exp(slope * rise);
  const lean = pairs.filter((pair) => pair.co2 <= co2 - APART + DUST).map((pair) => pair.co);
  const floor = lean.length > 0 ? Math.min(co, ...lean) : null;
  const byFloor =
    floor === null ? bySlope : floor + Math.max(co - floor, FEW_PPM) * Math.exp(ABOVE_FLOOR * rise);
  const rich = pairs.filter((pair) => pair.co2 >= there - DUST && rise > 0).map((pair) => pair.co);
  const byRich = rich.length > 0 ? RESERVE * Math.max(co, ...rich) : bySlope;
  return Math.min(bySlope, byFloor, byRich);
}
