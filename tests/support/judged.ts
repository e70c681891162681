import { judge } from "../../src/judge/judge.ts";
import type { Judgement } from "../../src/judge/judgement.ts";
import type { VisitHead } from "../../src/visit/visit.ts";
import { PRESSURE_SHEET } from "./sheets.ts";
import { play, type Said } from "./visits.ts";

/** Plays utterances and judges after the last one; with gas-pressure limits unless another head is given. */
export function judged(
  script: readonly Said[],
  changes: Partial<VisitHead> = { sheet: PRESSURE_SHEET },
): Judgement {
  const { state, since, now } = play(script, changes);
  return judge(state, since, now);
}

/** Nothing read, nothing to do. */
export const NOTHING_JUDGED: Judgement = {
  verdicts: [],
  advice: { action: "none" },
  warnings: [],
  stage: "high-fire",
  next: "",
};
