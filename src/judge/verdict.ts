import type { StandingReading } from "../visit/state.ts";
import type { Verdict } from "./judgement.ts";
import { limitFor } from "./limits.ts";
import { place } from "./resolution.ts";
import { tooEarly } from "./settle.ts";
import type { Situation } from "./situation.ts";

/**
 * The verdict on one reading, limit in the reading's unit, edges included. A reading before the settle time is over is
 * "wait"; where no limit is known it is "no-limit", never "pass".
 */
export function verdictOf(s: Situation, r: StandingReading): Verdict {
  const { quantity, firing, value, unit } = r.reading;
  const limit = limitFor(s, r.reading);
  const verdict =
    tooEarly(s, r) > 0 ? "wait" : limit === null ? "no-limit" : place(value, limit) === 0 ? "pass" : "fail";
  return { quantity, firing, value, unit, verdict, limit };
}
