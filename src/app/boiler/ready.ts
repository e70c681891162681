import { instruction, type Wording } from "../../answer/instruction.ts";
import type { Talkativeness } from "../../answer/talk.ts";
import type { Judgement } from "../../judge/judgement.ts";
import { readyAt } from "../../judge/settle.ts";
import { epochMs } from "../../measure/instant.ts";
import { openQuestion } from "../../visit/questions.ts";
import type { VisitState } from "../../visit/state.ts";

/** The waits of a running visit, ISO 8601. */
export interface Wait {
  /** When the settle time that runs is over and "ready" is due; null where none runs. */
  readonly until: string | null;
  /** The end that was told last, so that it is told once; null where none was. */
  readonly told: string | null;
}

/** The wait once the visit stands as in `state`; `now` is ISO 8601. Time that was over when nobody waited is not news. */
export function waitIn(before: Wait, state: VisitState, now: string): Wait {
  const { told } = before;
  const end = state.finished ? null : readyAt(state);
  if (end === null || end === told) return { until: null, told };
  return { until: before.until !== null || epochMs(end) > epochMs(now) ? end : null, told };
}

const WORDINGS: Readonly<Record<Talkativeness, Wording>> = {
  short: "fewest",
  normal: "plain",
  full: "reasoned",
};

/** What is said when the settle time is over. What stops the work invites to nothing; an open question keeps its answer. */
export function readySaid(state: VisitState, judgement: Judgement, talk: Talkativeness): string {
  if (judgement.advice.action === "stop") return judgement.next;
  if (openQuestion(state)) return "Ready.";
  return `Ready. ${instruction(state, judgement, WORDINGS[talk])}`.trim();
}
