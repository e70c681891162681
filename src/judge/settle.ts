import type { Firing } from "../measure/firing.ts";
import { epochMs, isoTime } from "../measure/instant.ts";
import type { QuantityId } from "../measure/quantity.ts";
import type { StandingReading, VisitState } from "../visit/state.ts";
import { type Situation, secondsGone } from "./situation.ts";

/** Quantities that take time to settle after a touch of a screw, and have limits. */
const SETTLING: ReadonlySet<QuantityId> = new Set(["co2", "o2", "co"]);

/** A clock that was started: when, by which entry, and for how long. */
interface Clock {
  readonly seq: number;
  readonly at: string;
  readonly seconds: number;
}

/** Each touch of a screw starts the clock, with the sheet's time for that screw; "start the clock" starts it anew. */
function clocksOf(state: VisitState, firing: Firing | null): readonly Clock[] {
  const settle = state.head.sheet?.settleSeconds;
  if (!settle) return [];
  return [
    ...state.adjustments.map((a) => ({ seq: a.seq, at: a.at, seconds: settle[a.adjuster] })),
    ...state.marks
      .filter(({ mark }) => mark === "timer-start")
      .map((m) => ({ seq: m.seq, at: m.at, seconds: settle[firing ?? "high"] })),
  ];
}

/**
 * Seconds (0 or more, not rounded) until readings have settled, as seen at time `at` by whoever comes after entry
 * `seq`. 0 without a sheet: no settle time is known.
 */
export function settleLeft(
  s: Situation,
  at: string = s.now,
  seq: number = s.state.nextSeq,
  firing: Firing | null = s.state.firing?.firing ?? null,
): number {
  return clocksOf(s.state, firing)
    .filter((clock) => clock.seq < seq)
    .reduce((most, clock) => Math.max(most, clock.seconds - secondsGone(clock.at, at)), 0);
}

/** When the settle time that was started last is over, ISO 8601; null where none was. Then "ready" is due. */
export function readyAt(state: VisitState): string | null {
  const ends = clocksOf(state, state.firing?.firing ?? null).map(
    ({ at, seconds }) => epochMs(at) + 1000 * seconds,
  );
  return ends.length > 0 ? isoTime(Math.max(...ends)) : null;
}

/** Seconds by which a reading came too early, 0 where it had settled. */
export function tooEarly(s: Situation, r: StandingReading): number {
  return SETTLING.has(r.reading.quantity) ? settleLeft(s, r.at, r.seq, r.reading.firing) : 0;
}
