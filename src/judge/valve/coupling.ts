import { settled } from "../current.ts";
import type { Situation } from "../situation.ts";
import { eventsAfter, towardsRise } from "./events.ts";
import { readingNoise } from "./noise.ts";
import { priorOf } from "./prior.ts";

/** What one screw does to the other one's firing, vol-% CO2 per turn towards rising CO2, with its standard deviation. */
export interface Coupling {
  readonly likely: number;
  readonly deviation: number;
}

/** The low-fire screw moves high fire by some share of what it does at low fire. Our own cautious guess. */
const SHARE = 0.05;
const SHARE_DEVIATION = 0.1;

/** What the low-fire screw does to high fire: from high-fire readings that only low-fire turns lie between. */
export function couplingOf(s: Situation): Coupling {
  if (!s.sheet) return { likely: 0, deviation: 0 };
  const { gain } = priorOf("low", s.sheet.adjusters.low);
  let likely = SHARE * gain;
  let variance = (SHARE_DEVIATION * gain) ** 2;

  const readings = settled(s, "co2", "high");
  const [first] = readings;
  if (!first) return { likely, deviation: Math.sqrt(variance) };
  let before = first.reading.value;
  let low = 0;
  let high = false;
  for (const event of eventsAfter(s, first, readings)) {
    if (!("reading" in event)) {
      if (event.adjuster === "low") low += towardsRise(s, event);
      else high = true;
      continue;
    }
    const { value } = event.reading;
    if (low !== 0 && !high) {
      // A Kalman step: the difference of two readings is the coupling times the turns, with the noise of both.
      const noise = 2 * readingNoise(value) ** 2;
      const kept = (variance * low) / (variance * low ** 2 + noise);
      likely += kept * (value - before - likely * low);
      variance *= 1 - kept * low;
    }
    before = value;
    low = 0;
    high = false;
  }
  return { likely, deviation: Math.sqrt(variance) };
}
