import { derive } from "./derive.ts";
import type { Entry } from "./entry.ts";
import { isSame, nextQuestions } from "./questions.ts";
import type { ItemBody, LoggedItem, VisitState } from "./state.ts";
import type { Visit, VisitHead } from "./visit.ts";

/** A visit before its first entry. */
export function startState(head: VisitHead): VisitState {
  return { head, nextSeq: 0, items: [], questions: [], answered: null, ...derive([]) };
}

/** The visit's state: a pure fold of its entries, so that any moment can be replayed. Never throws. */
export function foldVisit(visit: Visit): VisitState {
  return visit.entries.reduce(step, startState(visit.head));
}

/**
 * The state after one more entry. A strike or replacement whose target is unknown, already struck or (for a
 * replacement) of another kind changes nothing.
 */
export function step(state: VisitState, entry: Entry): VisitState {
  const items = nextItems(state.items, entry);
  const { at, phrase } = entry;
  return {
    head: state.head,
    nextSeq: Math.max(state.nextSeq, entry.seq + 1),
    items,
    questions: nextQuestions(state, entry),
    answered: entry.body.kind === "answer" || isSame(state.answered, entry) ? { at, phrase } : null,
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
        item.id === body.target && item.struckBy === null && item.body.kind === body.with.kind
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
