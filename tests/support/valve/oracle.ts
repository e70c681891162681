import { HAND_TURNS } from "../../../src/judge/turns.ts";
import type { Firing } from "../../../src/measure/firing.ts";
import { inRange, type Screws, screwsAsFound, settledCo2, turnScrew, type ValveSpec } from "./valve.ts";

/** More adjustments than this nobody needs here. */
const MOST = 30;

/** So many steps of a screw are combined in every way, back and forth too; of more, all before these are the largest. */
const COMBINED = 3;

/** Where screws come to stand that differ by less make no difference, turns. */
const SAME = 1e-4;

/**
 * The fewest adjustments of one who knows the valve and is bound by the same largest step and the same fractions of a turn; null
 * where none will do. In range is what an analyser without noise would show.
 */
export function fewestAdjustments(spec: ValveSpec): number | null {
  const ways = { high: waysOf(spec, "high"), low: waysOf(spec, "low") };
  for (let total = 0; total <= MOST; total += 1) {
    for (let low = 0; low <= total; low += 1) {
      const lows = ways.low(low);
      if (ways.high(total - low).some((h) => lows.some((l) => reaches(spec, h, l)))) return total;
    }
  }
  return null;
}

function reaches(spec: ValveSpec, high: Screws, low: Screws): boolean {
  const acting = { high: high.acting.high, low: low.acting.low };
  return inRange(spec, settledCo2(spec, { ...high, acting }));
}

/** Where a screw can stand after so many steps and no fewer. */
function waysOf(spec: ValveSpec, screw: Firing): (steps: number) => readonly Screws[] {
  const { largestStepTurns: largest } = spec.sheet.adjusters[screw];
  const sizes = HAND_TURNS.map(({ turns }) => turns).filter((turns) => turns <= largest + 1e-9);
  const signed = sizes.flatMap((size) => [size, -size]);
  const start = screwsAsFound(spec);
  const known: Screws[][] = [[start]];
  const seen = new Set([placeOf(start, screw)]);

  const next = (steps: number): Screws[] => {
    const straight = [largest, -largest].map((by) =>
      Array.from({ length: Math.max(0, steps - COMBINED) }).reduce<Screws>(
        (s) => turnScrew(spec, s, screw, by),
        start,
      ),
    );
    let reached = straight;
    for (let i = 0; i < Math.min(steps, COMBINED); i += 1)
      reached = distinct(
        reached.flatMap((s) => signed.map((by) => turnScrew(spec, s, screw, by))),
        screw,
      );
    return reached.filter((s) => !seen.has(placeOf(s, screw)));
  };

  return (steps) => {
    for (let n = known.length; n <= steps; n += 1) {
      const found = next(n);
      for (const s of found) seen.add(placeOf(s, screw));
      known.push(found);
    }
    return known[steps] ?? [];
  };
}

const placeOf = ({ acting }: Screws, screw: Firing) => Math.round(acting[screw] / SAME);

/** One of those whose driver and screw stand in the same place. */
function distinct(screws: readonly Screws[], screw: Firing): Screws[] {
  const byPlace = screws.map(
    (s) => [`${placeOf(s, screw)} ${Math.round(s.driver[screw] / SAME)}`, s] as const,
  );
  return [...new Map(byPlace).values()];
}
