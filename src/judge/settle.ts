import type { Firing } from "../measure/firing.ts";
import { epochMs, isoTime } from "../measure/instant.ts";
import type { QuantityId } from "../measure/quantity.ts";
import type { StandingReading, VisitState } from "../visit/state.ts";
import type { Situation } from "./situation.ts";

/** Quantities that take time to settle after a touch of a screw, and have limits. */
export const SETTLING: ReadonlySet<QuantityId> = new Set(["co2", "o2", "co"]);

/** A clock that was started: when, by which entry, and for how long. */
interface Clock {
  readonly seq: number;
  /** Milliseconds since the epoch. */
  readonly from: number;
  /** Null where it depends on the firing that is waited for. */
  readonly seconds: number | null;
}

/** The clocks of a state, worked out once: every reading is held against every one of them. */
const known = new WeakMap<VisitState, readonly Clock[]>();

/** Each touch of a screw starts the clock, with the sheet's time for that screw; "start the clock" starts it anew. */
function clocksOf(state: VisitState): readonly Clock[] {
  const found = known.get(state);
  if (found) return found;
  const settle = state.head.sheet?.settleSeconds;
  const clocks = settle
    ? [
        ...state.adjustments.map((a) => ({
          seq: a.seq,
          from: epochMs(a.at),
          seconds: settle[a.adjuster],
        })),
        ...state.marks
          .filter(({ mark }) => mark === "timer-start")
          .map((m) => ({ seq: m.seq, from: epochMs(m.at), seconds: null })),
      ]
    : [];
  known.set(state, clocks);
  return clocks;
}

function secondsOf(state: VisitState, clock: Clock, firing: Firing | null): number {
  return clock.seconds ?? state.head.sheet?.settleSeconds[firing ?? "high"] ?? 0;
}

/**
 * Seconds (0 or more, not rounded) until readings have settled, as seen at time `at` by whoever comes after entry
 * `seq`. 0 without a sheet: no settle time is known.
 */
export function settleLeft(
  { state, now }: Situation,
  at: string = now,
  seq: number = state.nextSeq,
  firing: Firing | null = state.firing?.firing ?? null,
): number {
  const ms = epochMs(at);
  let most = 0;
  for (const clock of clocksOf(state)) {
    if (clock.seq >= seq) continue;
    // A clock that went backwards counts as none gone by.
    const gone = Math.max(0, ms - clock.from) / 1000;
    most = Math.max(most, secondsOf(state, clock, firing) - gone);
  }
  return most;
}

/** A settle time that was started, ISO 8601. */
export interface Settling {
  readonly from: string;
  readonly until: string;
}

/** The settle time that is over last; null where none was started. */
export function settlingOf(state: VisitState): Settling | null {
  const ends = clocksOf(state).map((clock) => ({
    from: clock.from,
    until: clock.from + 1000 * secondsOf(state, clock, state.firing?.firing ?? null),
  }));
  const [first, ...others] = ends;
  if (!first) return null;
  const last = others.reduce((latest, end) => (end.until > latest.until ? end : latest), first);
  return { from: isoTime(last.from), until: isoTime(last.until) };
}

/** When the settle time that was started last is over, ISO 8601; null where none was. Then "ready" is due. */
export function readyAt(state: VisitState): string | null {
  return settlingOf(state)?.until ?? null;
}

/** Seconds by which a reading came too early, 0 where it had settled. */
export function tooEarly(s: Situation, r: StandingReading): number {
  return SETTLING.has(r.reading.quantity) ? settleLeft(s, r.at, r.seq, r.reading.firing) : 0;
}
