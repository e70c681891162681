import { foldVisit } from "../../visit/fold.ts";
import type { Task } from "../../visit/task.ts";
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
