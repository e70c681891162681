import type { Firing } from "../../measure/firing.ts";
import { companion, current, settled } from "../current.ts";
import { limitFor } from "../limits.ts";
import type { Situation } from "../situation.ts";

/** What is known of CO at a firing, to say what it may become when the mixture gets richer. */
export interface Carbon {
  /** CO in ppm, and the CO2 in vol-% at which it was read. */
  readonly co: number;
  readonly co2: number;
  /** Growth of ln CO per vol-% CO2, cautious. */
  readonly slope: number;
  /** ppm. */
  readonly max: number;
}

/** Half a percent more CO2 is taken to double the CO: a cautious guess without source, until readings say it is worse. */
const SLOPE = Math.log(2) / 0.5;

/** CO grows ever faster on the rich side, so a slope that was seen is stretched; an analyser's few ppm do not count. */
const STRETCH = 1.3;
const FEW_PPM = 5;
/** Least difference in CO2, vol-%, from which a slope is taken. */
const APART = 0.2;

/** Null where CO, its CO2 or its limit is not known. */
export function carbonOf(s: Situation, firing: Firing): Carbon | null {
  const co = current(s, "co", firing) ?? settled(s, "co", firing).at(-1) ?? null;
  const co2 = co && companion(s, co, "co2");
  const max = co && limitFor(s, co.reading)?.max;
  if (!co || !co2 || typeof max !== "number") return null;
  return { co: co.reading.value, co2: co2.reading.value, slope: slopeOf(s, firing), max };
}

function slopeOf(s: Situation, firing: Firing): number {
  const pairs = settled(s, "co", firing).flatMap((co) => {
    const co2 = companion(s, co, "co2");
    return co2 ? [{ co: co.reading.value, co2: co2.reading.value }] : [];
  });
  const slopes = pairs.flatMap((rich) =>
    pairs
      .filter((lean) => rich.co2 - lean.co2 >= APART && rich.co - lean.co > FEW_PPM)
      .map((lean) => Math.log(rich.co / Math.max(lean.co, FEW_PPM)) / (rich.co2 - lean.co2)),
  );
  return Math.max(SLOPE, ...slopes.map((slope) => STRETCH * slope));
}

/** CO to expect at a CO2 in vol-%, ppm. */
export function coAt({ co, co2, slope }: Carbon, there: number): number {
  return Math.max(co, FEW_PPM) * Math.exp(slope * Math.max(0, there - co2));
}
