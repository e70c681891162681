import { spokenAmount, spokenScrew } from "../judge/turns.ts";
import type { Item, Unsure } from "../meaning/item.ts";
import type { Question } from "../meaning/question.ts";
import { quantityOf } from "../measure/quantity.ts";
import { spokenNumber, spokenUnitOf } from "../measure/show.ts";
import { sentence } from "../measure/text.ts";
import { NOTHING_TO_MEND } from "../visit/amend.ts";
import { isOnly } from "../visit/answers.ts";
import {
  NO_ALARM_TO_STRIKE,
  NO_SUCH_READING,
  NO_TURN_TO_STRIKE,
  NOTHING_TO_REPLACE,
  NOTHING_TO_STRIKE,
} from "../visit/correct.ts";
import type { Entry } from "../visit/entry.ts";
import { openQuestion } from "../visit/questions.ts";
import type { VisitState } from "../visit/state.ts";
import { spokenCandidate } from "./things.ts";

/**
 * The one short question after these entries: the one that is open now, else what is to be said about a piece that nothing
 * can answer. An answer brings up the next question that is still open.
 */
export function questionOf(state: VisitState, since: readonly Entry[]): string {
  const open = since.length > 0 ? openQuestion(state) : null;
  const pieces = since.flatMap(({ id, body }) =>
    body.kind === "unsure" ? [{ id, unsure: body.unsure }] : [],
  );
  const last = pieces.at(-1);
  if (open && (!last || pieces.some(({ id }) => id === open.id))) return ask(open.unsure);
  return last ? ask(last.unsure) : "";
}

/** The open question asked again, "" where none is open. */
export function openQuestionAgain(state: VisitState): string {
  const open = openQuestion(state);
  return open ? ask(open.unsure) : "";
}

function ask(unsure: Unsure): string {
  const { text, reason, candidates, question } = unsure;
  if (reason === NOTHING_TO_STRIKE) return "Nothing to strike.";
  if (reason === NO_TURN_TO_STRIKE) return "No turn to strike.";
  if (reason === NO_ALARM_TO_STRIKE) return "No alarm to strike.";
  if (reason === NO_SUCH_READING) return "No such reading to strike.";
  if (reason === NOTHING_TO_MEND) return "Nothing to mend.";
  if (reason === NOTHING_TO_REPLACE) return "No reading to mend.";
  if (question && !isOnly(unsure)) return asked(question);
  const [candidate] = candidates;
  const meant = candidate ? spokenCandidate(candidate) : null;
  if (!candidate || meant === null) return sentence(`say again: ${text}`);
  return sentence(`${placeOf(candidate, candidates)}${meant}?`);
}

/** The firing of a reading, where that is what is asked. */
function placeOf(item: Item, candidates: readonly Item[]): string {
  if (item.kind !== "reading" || item.firing === null) return "";
  const differs = candidates.some((other) => other.kind === "reading" && other.firing !== item.firing);
  return differs ? `${item.firing} fire ` : "";
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
      return sentence(`${spokenNumber(value)}${unit ? ` ${spokenUnitOf(value, unit)}` : ""} of what?`);
    }
    case "way": {
      const screw = question.adjuster ? `${spokenScrew(question.adjuster)} ` : "";
      return sentence(`${screw}${spokenAmount(question.turns)}: clockwise or counterclockwise?`);
    }
    case "screw":
      return sentence(`${spokenAmount(question.turns)} of which screw: high or low?`);
  }
}
