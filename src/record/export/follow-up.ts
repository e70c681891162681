import { capital } from "../../measure/capital.ts";
import { foldVisit } from "../../visit/fold.ts";
import type { Task, TaskAction } from "../../visit/task.ts";
import type { Visit } from "../../visit/visit.ts";
import { type NoteRecord, notesOf } from "../notes/notes.ts";

/** Something that is still to be done, with where it comes from. */
export interface FollowUp {
  readonly visit: Visit;
  readonly note: NoteRecord;
  readonly task: Task;
  /** Place of the task in its note, from 0. */
  readonly place: number;
}

/** What the notes of visits say is still to be done, in the order of the visits and notes. */
export function followUpsOf(visits: readonly Visit[]): FollowUp[] {
  return visits.flatMap((visit) =>
    notesOf(foldVisit(visit)).flatMap((note) =>
      note.tasks.flatMap((task, place) => (task.done ? [] : [{ visit, note, task, place }])),
    ),
  );
}

const VERBS: Readonly<Record<TaskAction, string>> = {
  replace: "replace",
  order: "order",
  bring: "bring",
  clean: "clean",
  check: "check",
  repair: "repair",
  fit: "fit",
  remove: "remove",
  adjust: "adjust",
  call: "call",
  return: "come back",
  tell: "tell",
  quote: "quote for",
  other: "to do:",
};

/** Of those actions whoever is named is what they are done to. */
const TO_PEOPLE: ReadonlySet<TaskAction> = new Set(["call", "tell"]);

/** A task in a few words: "Replace condensate trap gasket", "Call the customer: price"; `text` are the note's words, for want of others. */
export function taskInShort({ action, thing, who }: Task, text: string): string {
  const verb = VERBS[action.value];
  if (who && TO_PEOPLE.has(action.value))
    return `${capital(verb)} the ${who.value}${thing ? `: ${thing.value}` : ""}`;
  if (action.value === "return" && thing) return `Come back: ${thing.value}`;
  if (action.value === "other") return thing ? capital(thing.value) : text;
  return capital(thing ? `${verb} ${thing.value}` : verb);
}
