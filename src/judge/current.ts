import type { Firing } from "../measure/firing.ts";
import type { QuantityId } from "../measure/quantity.ts";
import type { StandingReading } from "../visit/state.ts";
import { tooEarly } from "./settle.ts";
import type { Situation } from "./situation.ts";

/** The last standing reading of a quantity in a firing, settled or not, or null. */
export function latest(s: Situation, quantity: QuantityId, firing: Firing | null): StandingReading | null {
  return (
    s.state.readings.findLast(({ reading }) => reading.quantity === quantity && reading.firing === firing) ??
    null
  );
}

/**
 * The reading that tells how a firing is now set: the last one that had settled, and that was taken after the last
 * touch of the screw. The high-fire screw moves low fire as well; what a low-fire touch does to high fire is for the
 * recheck at the end.
 */
export function current(s: Situation, quantity: QuantityId, firing: Firing): StandingReading | null {
  const { high, low } = s.state.lastTouch;
  const after = Math.max(high?.seq ?? -1, firing === "low" ? (low?.seq ?? -1) : -1);
  return settled(s, quantity, firing).findLast((r) => r.seq > after) ?? null;
}

/** All standing readings of a quantity in a firing that were not taken too early, oldest first. */
export function settled(s: Situation, quantity: QuantityId, firing: Firing): readonly StandingReading[] {
  return s.state.readings.filter(
    (r) => r.reading.quantity === quantity && r.reading.firing === firing && tooEarly(s, r) === 0,
  );
}

/** The reading of another quantity in the same firing nearest to `r`, no screw being touched between the two. */
export function companion(s: Situation, r: StandingReading, quantity: QuantityId): StandingReading | null {
  const others = s.state.readings.filter(
    (other) =>
      other.reading.quantity === quantity &&
      other.reading.firing === r.reading.firing &&
      !touchedBetween(s, other.seq, r.seq),
  );
  // What was said in one breath belongs together, whatever came next.
  const together = others.filter(({ at }) => at === r.at);
  return (together.length > 0 ? together : others).reduce<StandingReading | null>(
    (best, other) => (best && Math.abs(best.seq - r.seq) <= Math.abs(other.seq - r.seq) ? best : other),
    null,
  );
}

function touchedBetween(s: Situation, a: number, b: number): boolean {
  const [first, last] = [Math.min(a, b), Math.max(a, b)];
  return s.state.adjustments.some(({ seq }) => first < seq && seq < last);
}
