import type { Firing } from "../measure/firing.ts";
import { epochMs, isoTime } from "../measure/instant.ts";
import type { QuantityId } from "../measure/quantity.ts";
import type { StandingReading, VisitState } from "../visit/state.ts";
import { countBefore } from "./looked-up.ts";
import type { Situation } from "./situation.ts";

/** Quantities that take time to settle after a touch of a screw, and have limits. */
export const SETTLING: ReadonlySet<QuantityId> = new Set(["co2", "o2", "co"]);

/** What starts a clock, and so how long it runs: the touch of a screw, or "start the clock", which depends on the firing. */
const STARTS = ["high", "low", "timer"] as const;
type Start = (typeof STARTS)[number];

/** The clocks that were started by an entry and all before it: the last start of each, milliseconds since the epoch. */
interface Clocks {
  readonly seq: number;
  readonly from: Readonly<Partial<Record<Start, number>>>;
}

/** The clocks of a state, worked out once: every reading is held against those before it. */
const known = new WeakMap<VisitState, readonly Clocks[]>();

/** Each touch of a screw starts the clock, with the sheet's time for that screw; "start the clock" starts it anew. */
function clocksOf(state: VisitState): readonly Clocks[] {
  const found = known.get(state);
  if (found) return found;
  const timers = state.marks.filter(({ mark }) => mark === "timer-start");
  const starts: { seq: number; at: string; start: Start | "set-back" }[] = [
    ...state.setBacks.map(({ seq, at }) => ({ seq, at, start: "set-back" as const })),
    ...state.adjustments.map(({ seq, at, adjuster }) => ({ seq, at, start: adjuster })),
    ...timers.map(({ seq, at }) => ({ seq, at, start: "timer" as const })),
  ].sort((a, b) => a.seq - b.seq);
  let from: Clocks["from"] = {};
  const clocks = state.head.sheet
    ? starts.map(({ seq, at, start }) => {
        const ms = epochMs(at);
        from =
          start === "set-back"
            ? notAfter(from, ms)
            : { ...from, [start]: Math.max(from[start] ?? Number.NEGATIVE_INFINITY, ms) };
        return { seq, from };
      })
    : [];
  known.set(state, clocks);
  return clocks;
}

/** Once the device's clock was set back, what had started runs from there: else it would not be over for as long as that was. */
function notAfter(from: Clocks["from"], ms: number): Clocks["from"] {
  return Object.fromEntries(Object.entries(from).map(([start, at]) => [start, Math.min(at, ms)]));
}

/** Seconds for which such a clock runs. */
function secondsOf({ head }: VisitState, start: Start, firing: Firing | null): number {
  return head.sheet?.settleSeconds[start === "timer" ? (firing ?? "high") : start] ?? 0;
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
  const clocks = clocksOf(state);
  const started = clocks[countBefore(clocks, seq) - 1]?.from ?? {};
  const ms = epochMs(at);
  let most = 0;
  for (const start of STARTS) {
    const from = started[start];
    if (from === undefined) continue;
    // A clock that went backwards counts as none gone by.
    most = Math.max(most, secondsOf(state, start, firing) - Math.max(0, ms - from) / 1000);
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
  const started = clocksOf(state).at(-1)?.from ?? {};
  const firing = state.firing?.firing ?? null;
  let last: { from: number; until: number } | null = null;
  for (const start of STARTS) {
    const from = started[start];
    if (from === undefined) continue;
    const until = from + 1000 * secondsOf(state, start, firing);
    if (!last || until > last.until) last = { from, until };
  }
  return last && { from: isoTime(last.from), until: isoTime(last.until) };
}

/** Seconds by which a reading came too early, 0 where it had settled. */
export function tooEarly(s: Situation, r: StandingReading): number {
  return SETTLING.has(r.reading.quantity) ? settleLeft(s, r.at, r.seq, r.reading.firing) : 0;
}
