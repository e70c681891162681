import { NOT_CLEAR } from "../meaning/item.ts";
import type { Entry, EntryBody, Reading } from "./entry.ts";
import { foldVisit } from "./fold.ts";
import type { UnsureThing, VisitState } from "./state.ts";
import { type Utterance, utterancesOf } from "./utterances.ts";
import type { Visit } from "./visit.ts";

/** A phrase that the person stood by: where its sound is kept, and its words as heard. */
export interface ConfirmedPhrase {
  /** Place of the first entry that it gave. */
  readonly seq: number;
  readonly text: string;
}

/** Below this it was heard too poorly for silence to be consent. */
const SURE = 0.85;

/**
 * What may be taught from: phrases heard offline of which everything stands as it was first logged, and that the person confirmed. That
 * is: by "yes" where he was asked; by finding the visit right; or, where it was heard clearly, by going on after its answer and
 * not saying it otherwise. Of a phrase that was struck, mended, answered with "no", settled by hand, or not all
 * understood, nothing counts; nor do corrections, answers and notes themselves.
 */
export function confirmedPhrases(visit: Visit): readonly ConfirmedPhrase[] {
  const state = foldVisit(visit);
  const utterances = utterancesOf(visit.entries);
  return utterances.flatMap((utterance, at) => {
    const [first] = utterance;
    const later = utterances.slice(at + 1);
    const ofAnswers = (by: string) => utterances.find((one) => one.some(({ id }) => id === by)) ?? [];
    const stands = utterance.every(
      (entry) => entry.engine === "offline" && isAsLogged(entry, state, visit.entries, ofAnswers),
    );
    if (!stands) return [];
    const foundRight = later.some((one) => one.some(({ body }) => body.kind === "reviewed"));
    const wentOn = later.some(logsSomething);
    const confirmed = utterance.every(
      ({ body, confidence }) => body.kind === "unsure" || foundRight || (wentOn && confidence >= SURE),
    );
    return confirmed ? [{ seq: first.seq, text: first.phrase }] : [];
  });
}

/** Whether an entry stands as it was logged; a question, whether what was asked was meant, and stands. */
function isAsLogged(
  entry: Entry,
  state: VisitState,
  entries: readonly Entry[],
  ofAnswers: (by: string) => Utterance | readonly Entry[],
): boolean {
  const { body } = entry;
  switch (body.kind) {
    case "reading":
      return isUntouched(entry, state) && !isSaidOtherwise(entry, body, entries);
    case "firing":
    case "adjustment":
    case "check":
    case "mark":
      return isUntouched(entry, state);
    case "unsure": {
      const settled = acceptedAsHeard(state.unsure.find(({ id }) => id === entry.id));
      if (settled === null) return false;
      return ofAnswers(settled).every(({ id, body }) =>
        body.kind === "answer" ? true : isUntouched({ id }, state),
      );
    }
    case "note":
    case "strike":
    case "replace":
    case "answer":
    case "reviewed":
    case "details":
    case "tasks":
      return false;
  }
}

/** The answer that took what was heard unclearly as it was heard; null where it was something else. */
function acceptedAsHeard(thing: UnsureThing | undefined): string | null {
  if (thing?.settled?.how !== "accepted") return null;
  const { reason, candidates, question } = thing.unsure;
  return reason === NOT_CLEAR && candidates.length === 1 && question === undefined ? thing.settled.by : null;
}

function isUntouched({ id }: Pick<Entry, "id">, state: VisitState): boolean {
  const item = state.items.find((one) => one.id === id);
  return item !== undefined && item.struckBy === null && item.history.length === 0;
}

/**
 * Whether the same is read next with another number and nothing was turned between: it may have been misheard, and simply said again.
 */
function isSaidOtherwise({ seq }: Entry, reading: Reading, entries: readonly Entry[]): boolean {
  for (const { body } of entries.slice(seq + 1)) {
    if (body.kind === "adjustment") return false;
    if (
      body.kind === "reading" &&
      body.quantity === reading.quantity &&
      body.firing === reading.firing &&
      body.condition === reading.condition
    )
      return body.value !== reading.value || body.unit !== reading.unit;
  }
  return false;
}

/** What is answered with a judgement, or read back. */
const LOGS: readonly EntryBody["kind"][] = ["reading", "firing", "adjustment", "check", "mark", "note"];

function logsSomething(utterance: Utterance): boolean {
  return utterance.some(({ body }) => LOGS.includes(body.kind));
}
