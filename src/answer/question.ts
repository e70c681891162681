import { spokenAmount } from "../judge/turns.ts";
import type { Unsure } from "../meaning/item.ts";
import type { Question } from "../meaning/question.ts";
import { quantityOf } from "../measure/quantity.ts";
import { spokenNumber } from "../measure/show.ts";
import { spokenUnit } from "../measure/unit.ts";
import { NOTHING_TO_REPLACE, NOTHING_TO_STRIKE } from "../visit/correct.ts";
import type { Entry } from "../visit/entry.ts";
import { openQuestion } from "../visit/questions.ts";
import type { VisitState } from "../visit/state.ts";
import { sentence } from "./text.ts";
import { spokenCandidate } from "./things.ts";

/**
 * The one short question about what was not understood: the piece that the next phrase can answer, else the last one. An
 * answer brings up the next question that is still open.
 */
export function questionOf(state: VisitState, since: readonly Entry[]): string {
  const pieces = since.flatMap(({ body }) => (body.kind === "unsure" ? [body.unsure] : []));
  const open = since.length > 0 ? openQuestion(state) : null;
  if (open && pieces.length === 0) return ask(open.unsure);
  const piece = pieces.findLast(canBeAnswered) ?? pieces.at(-1);
  return piece ? ask(piece) : "";
}

/** The open question asked again, "" where none is open. */
export function openQuestionAgain(state: VisitState): string {
  const open = openQuestion(state);
  return open ? ask(open.unsure) : "";
}

function canBeAnswered({ candidates, question }: Unsure): boolean {
  return candidates.length > 0 || question !== undefined;
}

function ask({ text, reason, candidates: [candidate], question }: Unsure): string {
  if (reason === NOTHING_TO_STRIKE) return "Nothing to strike.";
  if (reason === NOTHING_TO_REPLACE) return "No reading to mend.";
  if (question) return asked(question);
  const meant = candidate ? spokenCandidate(candidate) : null;
  return meant === null ? sentence(`say again: ${text}`) : sentence(`${meant}?`);
}

/** What is missing, asked for. */
function asked(question: Question): string {
  switch (question.asks) {
    case "value": {
      const { condition, quantity } = question;
      return sentence(`${condition ? `${condition} ` : ""}${quantityOf(quantity).spoken}: how much?`);
    }
    case "quantity": {
      const { value, unit } = question;
      return sentence(`${spokenNumber(value)}${unit ? ` ${spokenUnit(unit)}` : ""} of what?`);
    }
    case "way":
      return sentence(`${spokenAmount(question.turns)}: clockwise or counterclockwise?`);
    case "screw":
      return sentence(`${spokenAmount(question.turns)} of which screw: high or low?`);
  }
}
