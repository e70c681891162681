import type { Firing } from "../measure/firing.ts";
import type { QuantityId } from "../measure/quantity.ts";
import type { StandingReading, VisitState } from "../visit/state.ts";
import { countBefore, readingsOf } from "./looked-up.ts";
import { tooEarly } from "./settle.ts";
import type { Situation } from "./situation.ts";

/** The last standing reading of a quantity in a firing, settled or not, or null. */
export function latest(s: Situation, quantity: QuantityId, firing: Firing | null): StandingReading | null {
  return readingsOf(s.state, quantity, firing).at(-1) ?? null;
}

/**
 * The reading that tells how a firing is now set: the last one that had settled, and that was taken after the last
 * touch of the screw. The high-fire screw moves low fire as well; what a low-fire touch does to high fire is for the
 * recheck at the end.
 */
export function current(s: Situation, quantity: QuantityId, firing: Firing): StandingReading | null {
  const { high, low } = s.state.lastTouch;
  const after = Math.max(high?.seq ?? -1, firing === "low" ? (low?.seq ?? -1) : -1);
  const last = settled(s, quantity, firing).at(-1);
  return last && last.seq > after ? last : null;
}

/** What was worked out for a state: several rules ask for the same readings. */
const known = new WeakMap<VisitState, Map<string, readonly StandingReading[]>>();

/** All standing readings of a quantity in a firing that were not taken too early, oldest first. */
export function settled(s: Situation, quantity: QuantityId, firing: Firing): readonly StandingReading[] {
  const lists = known.get(s.state) ?? new Map<string, readonly StandingReading[]>();
  known.set(s.state, lists);
  const key = `${quantity} ${firing}`;
  const found = lists.get(key);
  if (found) return found;
  const list = readingsOf(s.state, quantity, firing).filter((r) => tooEarly(s, r) === 0);
  lists.set(key, list);
  return list;
}

/** The reading of another quantity in the same firing nearest to `r`, no screw being touched between the two. */
export function companion(s: Situation, r: StandingReading, quantity: QuantityId): StandingReading | null {
  const all = readingsOf(s.state, quantity, r.reading.firing);
  const { adjustments } = s.state;
  const touches = countBefore(adjustments, r.seq);
  const [touch, next] = [adjustments[touches - 1], adjustments[touches]];
  const from = touch ? countBefore(all, touch.seq) : 0;
  const to = next ? countBefore(all, next.seq) : all.length;
  const at = countBefore(all, r.seq);
  const beside = all.slice(Math.max(from, at - 1), Math.min(to, at + 2));
  // What was said in one breath belongs together, whatever came next.
  const together = beside.filter((other) => other.at === r.at);
  return nearest(together.length > 0 ? together : beside, r);
}

/** The nearest by place, of two as near the one that came first. */
function nearest(others: readonly StandingReading[], { seq }: StandingReading): StandingReading | null {
  return others.reduce<StandingReading | null>(
    (best, other) => (best && Math.abs(best.seq - seq) <= Math.abs(other.seq - seq) ? best : other),
    null,
  );
}
