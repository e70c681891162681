import { AIR_O2_PERCENT, co2Max } from "../combustion/dilution.ts";
import type { Context } from "../meaning/context.ts";
import type { Question } from "../meaning/question.ts";
import { openQuestion } from "../visit/questions.ts";
import type { VisitState } from "../visit/state.ts";

/** What the visit so far tells the parser about the next phrase. */
export function contextOf(state: VisitState): Context {
  const last = state.items.findLast(({ struckBy }) => struckBy === null)?.body;
  return {
    firing: state.firing?.firing ?? null,
    question: questionIn(state),
    known: state.readings.map(({ reading: { quantity, value, unit, firing } }) => ({
      quantity,
      value,
      unit,
      firing,
    })),
    gas: { co2Max: co2Max(state.head.fuel), o2InAir: AIR_O2_PERCENT },
    turn: last?.kind === "adjustment" ? { adjuster: last.adjuster, turns: last.turns } : null,
  };
}

/** What a phrase that says only a number, a name or a way would answer. */
function questionIn(state: VisitState): Question | null {
  const open = openQuestion(state)?.unsure;
  if (!open) return null;
  if (open.question) return open.question;
  const [asked] = open.candidates;
  if (asked?.kind !== "reading") return null;
  const { quantity, firing, condition } = asked;
  const others = open.candidates.flatMap((other) =>
    other.kind === "reading" && other.quantity !== quantity ? [other.quantity] : [],
  );
  return { asks: "value", quantity, firing, condition, others };
}
