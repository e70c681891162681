import type { Firing } from "../measure/firing.ts";
import type { QuantityId } from "../measure/quantity.ts";
import type { StandingReading, VisitState } from "../visit/state.ts";

/** The standing readings by what they are of, in spoken order: every rule asks for some of them. */
type Index = ReadonlyMap<string, readonly StandingReading[]>;

const known = new WeakMap<readonly StandingReading[], Index>();

/** All standing readings of a quantity in a firing, oldest first. */
export function readingsOf(
  { readings }: VisitState,
  quantity: QuantityId,
  firing: Firing | null,
): readonly StandingReading[] {
  const found = known.get(readings) ?? indexed(readings);
  known.set(readings, found);
  return found.get(keyOf(quantity, firing)) ?? [];
}

function indexed(readings: readonly StandingReading[]): Index {
  const index = new Map<string, StandingReading[]>();
  for (const r of readings) {
    const key = keyOf(r.reading.quantity, r.reading.firing);
    const list = index.get(key);
    if (list) list.push(r);
    else index.set(key, [r]);
  }
  return index;
}

function keyOf(quantity: QuantityId, firing: Firing | null): string {
  return `${quantity} ${firing}`;
}

/** In a list by place: how many come before place `seq`. */
export function countBefore(list: readonly { readonly seq: number }[], seq: number): number {
  let [from, to] = [0, list.length];
  while (from < to) {
    const middle = (from + to) >> 1;
    if ((list[middle]?.seq ?? seq) < seq) from = middle + 1;
    else to = middle;
  }
  return from;
}
