import { settleLeft, tooEarly } from "../settle.ts";
import type { Situation } from "../situation.ts";
import { spokenSeconds } from "../turns.ts";
import type { Danger } from "./rule.ts";

/** A reading before the settle time is over, with how long that still is. */
export function readTooEarly(s: Situation): Danger | null {
  const early = s.fresh.filter((r) => tooEarly(s, r) > 0);
  if (early.length === 0) return null;
  const left = Math.max(...early.map((r) => settleLeft(s, s.now, r.seq, r.reading.firing)));
  const what = left > 0 ? `wait ${spokenSeconds(left)} more` : "read again";
  return { code: "read-too-early", text: `Too early: ${what}.`, stop: false };
}
