import { derive } from "./derive.ts";
import type { Entry, EntryBody, Reading } from "./entry.ts";
import type { ItemBody, LoggedItem, OpenQuestion, VisitState } from "./state.ts";
import type { Visit, VisitHead } from "./visit.ts";

type Adjustment = Extract<EntryBody, { kind: "adjustment" }>;

/** A visit before its first entry. */
export function startState(head: VisitHead): VisitState {
  return { head, nextSeq: 0, items: [], questions: [], answeredAt: null, ...derive([]) };
}

/** The visit's state: a pure fold of its entries, so that any moment can be replayed. Never throws. */
export function foldVisit(visit: Visit): VisitState {
  return visit.entries.reduce(step, startState(visit.head));
}

/**
 * The state after one more entry. A strike or replacement whose target is unknown, already struck or (for a
 * replacement) no reading changes nothing.
 */
export function step(state: VisitState, entry: Entry): VisitState {
  const items = nextItems(state.items, entry);
  return {
    head: state.head,
    nextSeq: Math.max(state.nextSeq, entry.seq + 1),
    items,
    questions: nextQuestions(state, entry),
    answeredAt: entry.body.kind === "answer" || entry.at === state.answeredAt ? entry.at : null,
    ...derive(items),
  };
}

function nextItems(items: readonly LoggedItem[], entry: Entry): readonly LoggedItem[] {
  const { body } = entry;
  switch (body.kind) {
    case "reading":
    case "firing":
    case "adjustment":
    case "note":
    case "check":
    case "mark":
      return [...items, logged(entry, body)];
    case "strike":
      return items.map((item) =>
        item.id === body.target && item.struckBy === null ? { ...item, struckBy: entry.id } : item,
      );
    case "replace":
      return items.map((item) =>
        item.id === body.target && item.struckBy === null && item.body.kind === "reading"
          ? { ...item, body: body.with, history: [...item.history, item.body] }
          : item,
      );
    case "unsure":
    case "answer":
      return items;
  }
}

function logged(entry: Entry, body: ItemBody): LoggedItem {
  const { id, seq, at, said, confidence } = entry;
  return { id, seq, at, said, confidence, body, history: [], struckBy: null };
}

/**
 * A question stays open until it is answered or the work goes on: a late "yes" must never log an old number. What an
 * answer itself logs leaves the other questions open, so that two numbers of one phrase are asked one after the other.
 */
function nextQuestions({ questions, answeredAt }: VisitState, entry: Entry): readonly OpenQuestion[] {
  const { body } = entry;
  switch (body.kind) {
    case "unsure":
      return body.unsure.candidates.length > 0 || body.unsure.question !== undefined
        ? [...questions, { id: entry.id, unsure: body.unsure }]
        : questions;
    case "answer":
      return questions.filter((question) => question.id !== body.target);
    case "reading":
    case "adjustment":
      if (answersLast(questions, body)) return questions.slice(0, -1);
      return entry.at === answeredAt ? questions : [];
    case "firing":
    case "note":
    case "check":
    case "mark":
    case "strike":
    case "replace":
      return entry.at === answeredAt ? questions : [];
  }
}

/** Whether what was logged is what was asked about last: the number, the name or the way instead of "yes". */
function answersLast(questions: readonly OpenQuestion[], body: Reading | Adjustment): boolean {
  const last = questions.at(-1)?.unsure;
  if (!last) return false;
  const { question, candidates } = last;
  if (body.kind === "adjustment") return question?.asks === "way" || question?.asks === "screw";
  if (question?.asks === "value" && question.quantity === body.quantity) return true;
  if (question?.asks === "quantity" && question.value === body.value) return true;
  return candidates.some((asked) => asked.kind === "reading" && asked.quantity === body.quantity);
}

/** The question to which "yes" or "no" would be the answer, or null. */
export function openQuestion(state: VisitState): OpenQuestion | null {
  return state.questions.at(-1) ?? null;
}
