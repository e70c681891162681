import type { Firing } from "../measure/firing.ts";
import type { QuantityId } from "../measure/quantity.ts";
import type { StandingReading } from "../visit/state.ts";
import { type Situation, secondsGone } from "./situation.ts";

/** Quantities that take time to settle after a touch of a screw, and have limits. */
const SETTLING: ReadonlySet<QuantityId> = new Set(["co2", "o2", "co"]);

/**
 * Seconds (0 or more, not rounded) until readings have settled, as seen at time `at` by whoever comes after entry
 * `seq`. The clock starts at each touch of a screw, with the sheet's time for that screw, and anew at "start the
 * clock". 0 without a sheet: no settle time is known.
 */
export function settleLeft(
  s: Situation,
  at: string = s.now,
  seq: number = s.state.nextSeq,
  firing: Firing | null = s.state.firing?.firing ?? null,
): number {
  const { sheet, state } = s;
  if (!sheet) return 0;
  const { settleSeconds } = sheet;
  const clocks = [
    ...state.adjustments.map((a) => ({ seq: a.seq, at: a.at, seconds: settleSeconds[a.adjuster] })),
    ...state.marks
      .filter(({ mark }) => mark === "timer-start")
      .map((m) => ({ seq: m.seq, at: m.at, seconds: settleSeconds[firing ?? "high"] })),
  ];
  return clocks
    .filter((clock) => clock.seq < seq)
    .reduce((most, clock) => Math.max(most, clock.seconds - secondsGone(clock.at, at)), 0);
}

/** Seconds by which a reading came too early, 0 where it had settled. */
export function tooEarly(s: Situation, r: StandingReading): number {
  return SETTLING.has(r.reading.quantity) ? settleLeft(s, r.at, r.seq, r.reading.firing) : 0;
}
