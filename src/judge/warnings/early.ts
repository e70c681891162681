import { tooEarly } from "../settle.ts";
import type { Situation } from "../situation.ts";
import { spokenSeconds } from "../turns.ts";
import type { Danger } from "./rule.ts";

/** A reading before the settle time is over. */
export function readTooEarly(s: Situation): Danger | null {
  const early = Math.max(0, ...s.fresh.map((r) => tooEarly(s, r)));
  if (early === 0) return null;
  return { code: "read-too-early", text: `Too early: wait ${spokenSeconds(early)} more.`, stop: false };
}
