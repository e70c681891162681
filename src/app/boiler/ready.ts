import { instruction, type Wording } from "../../answer/instruction.ts";
import type { Talkativeness } from "../../answer/talk.ts";
import type { Judgement } from "../../judge/judgement.ts";
import { settlingOf } from "../../judge/settle.ts";
import { epochMs } from "../../measure/instant.ts";
import { openQuestion } from "../../visit/questions.ts";
import type { VisitState } from "../../visit/state.ts";

/** One moment on two clocks: the device's, that can be set, ISO 8601; and one that only goes on, ms. */
export interface Moment {
  readonly now: string;
  readonly elapsed: number;
}

/** The waits of a running visit. */
export interface Wait {
  /** When the settle time that runs is over and "ready" is due, ISO 8601; null where none runs. */
  readonly until: string | null;
  /** The end that was told last, so that it is told once; null where none was. */
  readonly told: string | null;
  /**
   * When it began to be waited for, and how long it had to go then, ms: from there the clock that only goes on counts,
   * so that a clock that is set makes no wait shorter or longer.
   */
  readonly since: Moment & { readonly left: number };
}

/** Nothing is waited for, and nothing was. */
export const NO_WAIT: Wait = { until: null, told: null, since: { now: "", elapsed: 0, left: 0 } };

/** The wait once the visit stands as in `state`. Time that was over when nobody waited is not news. */
export function waitIn(before: Wait, state: VisitState, moment: Moment): Wait {
  const { told } = before;
  const settling = state.finished ? null : settlingOf(state);
  if (settling === null || settling.until === told) return { ...before, until: null };
  if (settling.until === before.until) return before;
  const whole = epochMs(settling.until) - epochMs(settling.from);
  const left = epochMs(settling.until) - epochMs(moment.now);
  if (left <= 0 && before.until === null) return { ...before, until: null };
  // A start that lies ahead is of a clock that was set back since.
  return { until: settling.until, told, since: { ...moment, left: Math.min(left, whole) } };
}

/** How long the wait has to go, ms: 0 or less once it is over, or where there is none. */
export function leftOf({ until, since }: Wait, elapsed: number): number {
  return until === null ? 0 : since.left - (elapsed - since.elapsed);
}

/** Clocks are put right by less than this all the time, ms. */
const SET_BY = 5000;

/** By how much the device's clock was set since the wait began, ms, forward positive; 0 where it only went on. */
export function setBy({ until, since }: Wait, { now, elapsed }: Moment): number {
  if (until === null) return 0;
  const by = epochMs(now) - epochMs(since.now) - (elapsed - since.elapsed);
  return Math.abs(by) < SET_BY ? 0 : by;
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

/** "The clock of this device was set back by 1 h 2 min." A device that slept looks as one whose clock was set forward. */
export function setInWords(by: number): string {
  const seconds = Math.round(Math.abs(by) / 1000);
  const [hours, minutes] = [Math.floor(seconds / 3600), Math.floor((seconds % 3600) / 60)];
  const parts = [
    hours > 0 ? `${hours} h` : "",
    minutes > 0 ? `${minutes} min` : "",
    seconds < 60 ? `${seconds} s` : "",
  ];
  const amount = parts.filter((part) => part !== "").join(" ");
  return by < 0
    ? `The clock of this device was set back by ${amount}.`
    : `The clock of this device was set forward by ${amount}, or the device slept.`;
}
