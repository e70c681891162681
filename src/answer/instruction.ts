import { CHECK_NAME } from "../judge/closing.ts";
import type { Advice, Judgement, Stage } from "../judge/judgement.ts";
import { spokenSeconds, spokenTurns } from "../judge/turns.ts";
import { spokenNumber } from "../measure/show.ts";
import { sentence } from "../measure/text.ts";
import type { VisitState } from "../visit/state.ts";

/** How the next step is said: in the fewest words that are safe, as a sentence, or with the reason for it. */
export type Wording = "fewest" | "plain" | "reasoned";

/** The one thing to do next. */
export function instruction(state: VisitState, { advice, next, stage }: Judgement, wording: Wording): string {
  switch (wording) {
    case "fewest":
      return stage === "before-test" ? firstOf(next) : (fewest(advice) ?? next);
    case "plain":
      return next;
    case "reasoned":
      return advice.action === "turn"
        ? reasonedTurn(state, advice)
        : withReason(next, reason(advice, stage, next));
  }
}

/** Of several things to do before the test the first: "First isolate the gas, open the pressure tap. Then …". */
function firstOf(next: string): string {
  const [, first] = /^First ([^,.]+)/.exec(next) ?? [];
  return first === undefined ? next : sentence(first);
}

function fewest(advice: Advice): string | null {
  switch (advice.action) {
    case "turn":
      return `${advice.adjuster === "high" ? "High" : "Low"} screw ${spokenTurns(advice.turns)}.`;
    case "go-to":
      return `${advice.firing === "high" ? "High" : "Low"} fire next.`;
    case "close-up": {
      const [first] = advice.open;
      return first ? sentence(`${CHECK_NAME[first]} next`) : null;
    }
    default:
      return null;
  }
}

function reasonedTurn({ head }: VisitState, advice: Extract<Advice, { action: "turn" }>): string {
  const { adjuster, turns, expect, waitSeconds } = advice;
  const rises = turns > 0 === (head.sheet?.adjusters[adjuster].co2Rises === "clockwise");
  const [from, to] = [spokenNumber(expect.min), spokenNumber(expect.max)];
  const wait = waitSeconds > 0 ? `, then wait ${spokenSeconds(waitSeconds)} for it to settle` : "";
  const screw = `Turn the ${adjuster} fire screw ${spokenTurns(turns)} to ${rises ? "raise" : "lower"} C O 2`;
  return `${screw}, expect ${from === to ? from : `${from} to ${to}`}${wait}.`;
}

function withReason(next: string, why: string): string {
  return why === "" ? next : `${next.replace(/\.$/, "")}: ${why}.`;
}

/** Why it is asked for, "" where it says so itself. */
function reason(advice: Advice, stage: Stage, next: string): string {
  switch (advice.action) {
    case "wait":
      return "readings settle after a touch of the screw";
    case "read":
      return next.includes("again") ? "" : "it has not been read as the burner is now set";
    case "go-to":
      return GO_TO_WHY[stage] ?? "";
    case "recheck-high":
      return "the low fire screw moves it too";
    case "close-up":
      return advice.open.length > 1
        ? `${spokenNumber(advice.open.length)} things are open`
        : "it is the last thing open";
    case "turn":
    case "stop":
    case "none":
      return "";
  }
}

const GO_TO_WHY: Readonly<Partial<Record<Stage, string>>> = {
  "gas-pressure": "dynamic gas pressure is read with the burner running",
  "high-fire": "it is always set first",
  "low-fire": "high fire is in limits",
};
