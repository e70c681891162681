import type { Entry } from "../visit/entry.ts";
import type { VisitState } from "../visit/state.ts";
import { type Ask, NONE, stop } from "./ask.ts";
import type { Judgement } from "./judgement.ts";
import { stageOf } from "./procedure.ts";
import { type Situation, situationOf } from "./situation.ts";
import { verdictOf } from "./verdict.ts";
import { dangersOf } from "./warnings/list.ts";
import type { Danger } from "./warnings/rule.ts";

/**
 * Judges a visit after an utterance that brought the entries `since` (already in `state`). `now` is ISO 8601. Pure, and
 * never throws: the same visit at the same time always gets the same judgement.
 */
export function judge(state: VisitState, since: readonly Entry[], now: string): Judgement {
  const s = situationOf(state, since, now);
  const dangers = dangersOf(s);
  const { stage, ask } = stageOf(s);
  const { advice, next } = adviceOf(s, dangers, ask);
  return {
    verdicts: s.fresh.map((r) => verdictOf(s, r)),
    advice,
    warnings: dangers.map(({ code, text }) => ({ code, text })),
    stage,
    next,
  };
}

/** A danger that stops comes before all; without limits for this gas nothing is judged, so nothing is advised. */
function adviceOf(s: Situation, dangers: readonly Danger[], ask: Ask): Ask {
  const gravest = dangers.find((danger) => danger.stop);
  if (gravest) return stop(gravest.text);
  const judging = s.limits !== null || ask.advice.action === "close-up";
  return judging ? ask : { advice: NONE, next: ask.next };
}
