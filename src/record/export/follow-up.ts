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

/** What actions are called where it is not by their names. */
const VERBS: Readonly<Partial<Record<TaskAction, string>>> = { return: "come back", quote: "quote for" };

/** Of those actions whoever is named is what they are done to. */
const TO_PEOPLE: ReadonlySet<TaskAction> = new Set(["call", "tell"]);

/** A task in a few words: "Replace condensate trap gasket", "Call the customer: price"; `text` are the note's words, for want of others. */
export function taskInShort({ action, thing, who }: Task, text: string): string {
  const of = thing?.value ?? "";
  if (action.value === "other") return capital(of) || text;
  const verb = capital(VERBS[action.value] ?? action.value);
  if (who && TO_PEOPLE.has(action.value)) return `${verb} the ${who.value}${of && `: ${of}`}`;
  return `${verb}${of && `${action.value === "return" ? ":" : ""} ${of}`}`;
}
