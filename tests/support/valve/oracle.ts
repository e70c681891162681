import { HAND_TURNS } from "../../../src/judge/turns.ts";
import type { Firing } from "../../../src/measure/firing.ts";
import { inRange, screwsAsFound, settledCo2, turnScrew, type ValveSpec } from "./valve.ts";

/** More adjustments than this nobody needs here. */
const MOST = 30;

/** So many steps are combined in every way; of more, all but these are the largest. */
const COMBINED = 3;

/** The fewest adjustments of one who knows the valve and is bound by the same largest step; null where none will do. */
export function fewestAdjustments(spec: ValveSpec): number | null {
  for (let total = 0; total <= MOST; total += 1) {
    for (let high = 0; high <= total; high += 1) {
      const lows = reachable(spec, "low", total - high);
      if (reachable(spec, "high", high).some((h) => lows.some((l) => reaches(spec, h, l)))) return total;
    }
  }
  return null;
}

function reaches(spec: ValveSpec, high: number, low: number): boolean {
  const turned = turnScrew(spec, turnScrew(spec, screwsAsFound(spec), "high", high), "low", low);
  return inRange(spec, settledCo2(spec, turned));
}

/** Turns (towards rising CO2) that so many steps of a screw can make; back and forth brings nothing. */
function reachable({ sheet }: ValveSpec, screw: Firing, steps: number): readonly number[] {
  if (steps === 0) return [0];
  const largest = sheet.adjusters[screw].largestStepTurns;
  const sizes = HAND_TURNS.map(({ turns }) => turns).filter((turns) => turns <= largest + 1e-9);
  const free = Math.min(steps, COMBINED);
  let sums = new Set([(steps - free) * largest]);
  for (let i = 0; i < free; i += 1) {
    sums = new Set([...sums].flatMap((sum) => sizes.map((size) => Number((sum + size).toFixed(6)))));
  }
  return [...sums].flatMap((sum) => [sum, -sum]);
}
