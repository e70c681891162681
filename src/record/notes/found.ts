import type { TaskAction } from "../../visit/task.ts";
import { type ActionWord, actionAt } from "./actions.ts";
import { beginsVerb } from "./noun-or-verb.ts";
import { roleOf } from "./roles.ts";
import type { Sentence, Thing } from "./thing.ts";
import { DETERMINERS } from "./vocabulary.ts";

/** A task before its day is known, by places of words. */
export interface Found {
  readonly action: TaskAction;
  /** The words that the action comes from. */
  readonly start: number;
  readonly end: number;
  readonly thing: Thing | null;
  /** Place of the word for who. */
  readonly who: number | null;
  readonly done: boolean;
  /** All words that are of it. */
  readonly first: number;
  readonly last: number;
}

/** What a place in a note comes to: a task; a "not", or somebody else's deed, that takes along what is tied to it; null: nothing. */
export type Reading = Found | "denied" | "others" | null;

/** A sentence while it is read, with what was found before. */
export interface Scan extends Sentence {
  readonly text: string;
  /** The sentence's words: from `start`, `end` is not in it. */
  readonly start: number;
  readonly end: number;
  /** Up to here all is of earlier tasks. */
  readonly taken: number;
  /** Of the whole note so far. */
  readonly found: readonly Found[];
}

type Rest = Partial<Omit<Found, "action" | "start" | "end">>;

/** A task that is to be done, unless it is said otherwise. */
export function toDo(action: TaskAction, start: number, end: number, rest: Rest = {}): Found {
  return { action, start, end, thing: null, who: null, done: false, first: start, last: end, ...rest };
}

/** The word at a place in lower case, "" where there is none. */
export function normAt({ words }: Sentence, place: number): string {
  return words[place]?.norm ?? "";
}

/** The action that begins at a place of the note. */
export function verbAt({ words }: Sentence, place: number): ActionWord | null {
  return actionAt((ahead) => words[place + ahead]?.norm);
}

/** For `thingAfter`: where a new verb begins. */
export function verbIn(s: Sentence): (place: number, inThing: boolean) => boolean {
  return (place, inThing) => beginsVerb(s, place, inThing);
}

/** Place after the articles that stand at a place. */
export function pastArticles(s: Sentence, place: number): number {
  let at = place;
  while (DETERMINERS.has(normAt(s, at))) at++;
  return at;
}

/** Place of the role that stands at a place, behind its article: "the owner"; null where none does. */
export function roleFrom(s: Sentence, place: number): number | null {
  const first = pastArticles(s, place);
  // "the managing agent".
  const at = /^(?:managing|letting|estate|site|building)$/.test(normAt(s, first)) ? first + 1 : first;
  return isRole(s, at) ? at : null;
}

export function isRole(s: Sentence, place: number): boolean {
  // The housing office is not ours.
  const isOtherOffice =
    normAt(s, place) === "office" &&
    /^(?:housing|letting|estate|council|council's|school|post|box)$/.test(normAt(s, place - 1));
  return roleOf(normAt(s, place)) !== null && !isOtherOffice;
}

/** Where the clause that a place is in ends. */
export function clauseEnd({ words, end }: Scan, place: number): number {
  let at = place;
  while (at < end && words[at]?.stop === "") at++;
  return at;
}
