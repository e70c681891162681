import type { Judgement } from "../judge/judgement.ts";
import { settleLeft } from "../judge/settle.ts";
import { situationOf } from "../judge/situation.ts";
import { spokenSeconds } from "../judge/turns.ts";
import type { Command } from "../meaning/item.ts";
import { sentence } from "../measure/text.ts";
import type { VisitState } from "../visit/state.ts";
import { byFiguresSaid } from "./by-figures.ts";
import { NOT_LISTENING } from "./effect.ts";
import { limitsSaid } from "./limits.ts";
import { openQuestionAgain } from "./question.ts";
import { type Talkativeness, talkAfter } from "./talk.ts";
import { faultsSaid, readingsSaid, wholeState } from "./whole.ts";

/** What a command is answered from. */
export interface Asked {
  readonly state: VisitState;
  readonly judgement: Judgement;
  /** ISO 8601. */
  readonly now: string;
  /** What "repeat" repeats. */
  readonly last: string;
  readonly talk: Talkativeness;
}

/** What a command alone is answered with, in sentences; none where what it logged, or the instruction, says it all. */
export function commandAnswer(command: Command, asked: Asked): readonly string[] {
  const { state, judgement, now, last, talk } = asked;
  switch (command) {
    case "read-back":
      return wholeState(state, judgement, now, talk);
    case "verdict":
      return readingsSaid(state, now, talk);
    case "repeat":
      return [last === "" ? "Nothing was said yet." : last];
    case "limits":
      return limitsSaid(state, now);
    case "time-left":
    case "start-timer":
      return [timeLeft(state, now)];
    case "stop-listening":
      return [NOT_LISTENING];
    case "yes":
    case "no":
      return [openQuestionAgain(state) || "Nothing to confirm."];
    case "less-talk":
    case "more-talk":
      return [levelSaid(talk, talkAfter(talk, command))];
    case "figure-by-figure":
      return [byFiguresSaid(state)];
    case "advice":
      return faultsSaid(state, now);
    case "mark-as-found":
      return state.adjustments.length === 0 ? [] : ["A screw was turned already."];
    case "next-step":
    case "mark-as-left":
    case "finish-visit":
    case "acknowledge":
    case "gas-smell":
    case "co-alarm":
      return [];
  }
}

/** Whether a command asks for the next step, beside its own answer. */
export function asksForNext(command: Command): boolean {
  return ["read-back", "verdict", "advice", "next-step"].includes(command);
}

function levelSaid(before: Talkativeness, after: Talkativeness): string {
  return before === after ? `Answers are already ${after}.` : sentence(`${after} answers`);
}

function timeLeft(state: VisitState, now: string): string {
  const left = settleLeft(situationOf(state, [], now));
  if (left > 0) return sentence(`${spokenSeconds(left)} left`);
  const started = state.adjustments.length > 0 || state.marks.some(({ mark }) => mark === "timer-start");
  if (!started) return "No clock is running.";
  return state.head.sheet ? "Ready." : "No settle time known.";
}
