import type { Unsure } from "../meaning/item.ts";
import type { Firing } from "../measure/firing.ts";
import type { QuantityId } from "../measure/quantity.ts";
import type { Entry, EntryBody } from "./entry.ts";
import type { OpenQuestion, Utterance, VisitState } from "./state.ts";

/** The question to which the next phrase would be the answer, or null. */
export function openQuestion(state: VisitState): OpenQuestion | null {
  return state.questions.at(-1) ?? null;
}

/** Whether the next phrase can answer it: something is missing, or may have been meant. Nobody is asked about a command. */
function canBeAnswered({ candidates: [candidate], question }: Unsure): boolean {
  return question !== undefined || (candidate !== undefined && candidate.kind !== "command");
}

/** Whether it is about a turn of a screw. */
export function isOfTurn({ candidates, question }: Unsure): boolean {
  if (question?.asks === "way" || question?.asks === "screw") return true;
  return candidates.some(({ kind }) => kind === "adjustment");
}

/** The screw of the turn in question, null where it was not said. */
export function screwAsked({ candidates, question }: Unsure): Firing | null {
  if (question) return question.asks === "way" ? question.adjuster : null;
  const [screw, ...others] = candidates.map((item) => (item.kind === "adjustment" ? item.adjuster : null));
  return screw && others.every((other) => other === screw) ? screw : null;
}

/** What decides which questions are open. */
type Asking = Pick<VisitState, "questions" | "answered">;

/** The questions that are open after one more entry, the last asked last. */
export function nextQuestions(state: Asking, entry: Entry): readonly OpenQuestion[] {
  const { body } = entry;
  switch (body.kind) {
    case "unsure": {
      const { id, at, phrase } = entry;
      if (!canBeAnswered(body.unsure)) return state.questions;
      return [...left(state, entry), { id, at, phrase, unsure: body.unsure }];
    }
    case "answer":
      return state.questions.filter((question) => question.id !== body.target);
    case "replace":
      // Told what one of them was, the others still wait.
      return state.questions.some(({ id }) => id === body.target)
        ? state.questions.filter(({ id }) => id !== body.target)
        : left(state, entry);
    case "reviewed":
    case "details":
    case "tasks":
      return state.questions;
    case "reading":
    case "firing":
    case "adjustment":
    case "note":
    case "check":
    case "mark":
    case "strike":
      return left(state, entry);
  }
}

/** Id of the question that this entry answered by saying the thing again, or null; `after` are those still open then. */
export function saidAgain(state: Asking, after: readonly OpenQuestion[], { body }: Entry): string | null {
  const last = state.questions.at(-1);
  const isClosed = last !== undefined && !after.some(({ id }) => id === last.id);
  return isClosed && isAbout(last.unsure, body) ? last.id : null;
}

/** Whether two things were said in one breath. */
export function isSame(a: Utterance | null, b: Utterance): boolean {
  return a !== null && a.at === b.at && a.phrase === b.phrase;
}

/**
 * A question stays open until it is answered or the work goes on: a late "yes" must never log an old number. What an
 * answer itself logs or asks leaves the other questions open, so that two numbers of one phrase are asked one after the
 * other; so does the rest of the phrase that was asked about.
 */
function left({ questions, answered }: Asking, entry: Entry): readonly OpenQuestion[] {
  const last = questions.at(-1);
  if (!last) return [];
  if (isSame(answered, entry) || isSame(last, entry)) return questions;
  return isAbout(last.unsure, entry.body) ? questions.slice(0, -1) : [];
}

/** Whether what was said is of what was asked: the number, the name or the way instead of "yes". */
function isAbout(asked: Unsure, body: EntryBody): boolean {
  switch (body.kind) {
    case "adjustment":
      return isOfTurn(asked);
    case "reading":
      if (asked.question?.asks === "quantity") return asked.question.value === body.value;
      return quantitiesOf(asked).includes(body.quantity);
    case "unsure": {
      if (isOfTurn(body.unsure)) return isOfTurn(asked);
      const { unsure } = body;
      if (asked.question?.asks === "quantity")
        return quantitiesOf(unsure).length > 0 || unsure.question?.asks === "quantity";
      return quantitiesOf(unsure).some((quantity) => quantitiesOf(asked).includes(quantity));
    }
    case "firing":
    case "note":
    case "check":
    case "mark":
    case "strike":
    case "replace":
    case "answer":
    case "reviewed":
    case "details":
    case "tasks":
      return false;
  }
}

/** The quantities that were in question. */
export function quantitiesOf({ candidates, question }: Unsure): QuantityId[] {
  const named = candidates.flatMap((item) => (item.kind === "reading" ? [item.quantity] : []));
  return question?.asks === "value" ? [question.quantity, ...(question.others ?? []), ...named] : named;
}
