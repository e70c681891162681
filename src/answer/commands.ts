import type { Judgement } from "../judge/judgement.ts";
import { settleLeft } from "../judge/settle.ts";
import { situationOf } from "../judge/situation.ts";
import { spokenSeconds } from "../judge/turns.ts";
import { verdictOf } from "../judge/verdict.ts";
import type { Command } from "../meaning/item.ts";
import type { StandingReading, VisitState } from "../visit/state.ts";
import { openQuestionAgain } from "./question.ts";
import { sentence } from "./text.ts";
import { spokenBody } from "./things.ts";
import { verdictWords } from "./verdict-words.ts";

/** What a command alone is answered with; "" where what it logged says it all. */
export function commandAnswer(
  command: Command,
  state: VisitState,
  judgement: Judgement,
  now: string,
  last: string,
): string {
  switch (command) {
    case "read-back":
      return listed(state, (r) => spokenBody(r.reading));
    case "verdict": {
      const s = situationOf(state, [], now);
      return listed(state, (r) =>
        [spokenBody(r.reading), verdictWords(verdictOf(s, r))].filter(Boolean).join(", "),
      );
    }
    case "repeat":
      return last === "" ? "Nothing was said yet." : last;
    case "limits":
      return limitsSaid(state);
    case "next-step":
    case "advice":
      return judgement.next;
    case "time-left":
    case "start-timer":
      return timeLeft(state, now);
    case "stop-listening":
      return "Not listening.";
    case "yes":
    case "no":
      return openQuestionAgain(state) || "There is no question open.";
    case "mark-as-found":
    case "mark-as-left":
    case "finish-visit":
    case "acknowledge":
    case "gas-smell":
    case "co-alarm":
    case "less-talk":
    case "more-talk":
      return "";
  }
}

/** The CO2 and CO limits of the present firing. */
function limitsSaid(state: VisitState): string {
  const firing = state.firing?.firing;
  const limits = firing && state.head.sheet?.fuels[state.head.fuel]?.[firing];
  return limits ? "" : "No limits known.";
}

/** The last reading of each quantity in the present firing, and those that belong to none. */
function listed(state: VisitState, say: (r: StandingReading) => string): string {
  const present = state.firing?.firing ?? null;
  const last = new Map<string, StandingReading>();
  for (const r of state.readings) {
    const { quantity, firing, condition } = r.reading;
    if (present === null || firing === null || firing === present) last.set(`${quantity} ${condition}`, r);
  }
  if (last.size === 0) return "No readings yet.";
  const place = present ? sentence(`${present} fire`) : "";
  return [place, ...[...last.values()].map((r) => sentence(say(r)))].filter(Boolean).join(" ");
}

function timeLeft(state: VisitState, now: string): string {
  const left = settleLeft(situationOf(state, [], now));
  if (left > 0) return sentence(`${spokenSeconds(left)} left`);
  const started = state.adjustments.length > 0 || state.marks.some(({ mark }) => mark === "timer-start");
  if (!started) return "No clock is running.";
  return state.head.sheet ? "Time is up." : "No settle time known.";
}
