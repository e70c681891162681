import type { QuantityId } from "../measure/quantity.ts";
import type { PhaseRow, StandingMark, StandingReading, VisitState } from "./state.ts";

/** Quantities that a turn of a screw can move. The others (gas supply, room, water side) stand whatever is turned. */
const MOVED_BY_SCREWS: ReadonlySet<QuantityId> = new Set([
  "co2",
  "o2",
  "co",
  "flue-temperature",
  "gas-pressure-manifold",
  "flame-current",
]);

/** Whether a turn of a screw can move it. */
export function isMovedByScrews(quantity: QuantityId): boolean {
  return MOVED_BY_SCREWS.has(quantity);
}

/**
 * Sorts readings into as found, trial and as left, per quantity, firing and condition. What a screw can move was found as
 * the last one before the first adjustment of either screw (each moves both firings) or before the mark "as found" has
 * it, and left as the last one after the last adjustment has it. What no screw moves was found as it was read first, and
 * left as it was read last. Nothing after the mark "as left" is as left, where nothing was turned after that.
 */
export function phasesOf({
  readings,
  adjustments,
  marks,
}: Pick<VisitState, "readings" | "adjustments" | "marks">): readonly PhaseRow[] {
  const firstTouch = adjustments[0]?.seq ?? Number.POSITIVE_INFINITY;
  const lastTouch = adjustments.at(-1)?.seq ?? -1;
  const foundMark = lastMark(marks, "as-found") ?? -1;
  const leftMark = lastMark(marks, "as-left") ?? -1;
  const leftUntil = leftMark > lastTouch ? leftMark : Number.POSITIVE_INFINITY;

  return groups(readings).map((group) => {
    const [first] = group;
    const { quantity, firing, condition } = first.reading;
    const moved = isMovedByScrews(quantity);
    const untouched = group.filter((r) => r.seq < firstTouch || r.seq < foundMark);
    const found = untouched.findLast(({ seq }) => seq < leftUntil) ?? untouched.at(-1) ?? null;
    const asFound = moved ? found : first;
    const asLeft = group.findLast((r) => r.seq < leftUntil && (!moved || r.seq > lastTouch)) ?? null;
    const trials = group.filter((r) => r !== asLeft && r !== asFound);
    return { quantity, firing, condition, asFound, trials, asLeft };
  });
}

function groups(readings: readonly StandingReading[]): readonly [StandingReading, ...StandingReading[]][] {
  const byKey = new Map<string, [StandingReading, ...StandingReading[]]>();
  for (const r of readings) {
    const key = `${r.reading.quantity} ${r.reading.firing} ${r.reading.condition}`;
    const group = byKey.get(key);
    if (group) group.push(r);
    else byKey.set(key, [r]);
  }
  return [...byKey.values()];
}

function lastMark(marks: readonly StandingMark[], wanted: StandingMark["mark"]): number | undefined {
  return marks.findLast((mark) => mark.mark === wanted)?.seq;
}
