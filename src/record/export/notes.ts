import { isoDay } from "../../measure/zone.ts";
import { foldVisit } from "../../visit/fold.ts";
import { ROLES, TASK_ACTIONS, type Task } from "../../visit/task.ts";
import type { Visit } from "../../visit/visit.ts";
import { type NoteRecord, notesOf } from "../notes/notes.ts";
import { followUpKey } from "../office/follow-ups.ts";
import { taskInShort } from "../task-words.ts";
import type { DoneMark, DoneMarks } from "./done-marks.ts";
import { IDENTITY } from "./identity.ts";
import { localTime, utcTime } from "./local-time.ts";
import { type Column, table } from "./table.ts";

/** A note, or one thing that it says was done or is to be done. */
interface NoteRow {
  readonly visit: Visit;
  readonly note: NoteRecord;
  /** Null for a note that says no such thing. */
  readonly task: Task | null;
  /** Place of the task in its note, from 1. */
  readonly place: number | null;
  /** Who has marked the task as done since. */
  readonly mark: DoneMark | null;
}

function* rowsOf(visit: Visit, done: DoneMarks): Iterable<NoteRow> {
  for (const note of notesOf(foldVisit(visit))) {
    if (note.tasks.length === 0) yield { visit, note, task: null, place: null, mark: null };
    for (const [index, task] of note.tasks.entries()) {
      const mark = task.done ? null : (done.get(followUpKey({ visit, note, task })) ?? null);
      yield { visit, note, task, place: index + 1, mark };
    }
  }
}

const NOTED: readonly Column<NoteRow>[] = [
  {
    name: "note_id",
    title: "Note",
    description: "Id of the entry that logged the note.",
    datatype: "string",
    required: true,
    of: ({ note }) => note.id,
  },
  {
    name: "seq",
    title: "Place in log",
    description: "Place of the note in the visit's log, from 0.",
    datatype: "integer",
    required: true,
    of: ({ note }) => note.seq,
  },
  {
    name: "time",
    title: "Time (UTC)",
    description: "When the note was made, ISO 8601 in UTC.",
    datatype: "dateTime",
    required: true,
    of: ({ note }) => utcTime(note.at),
  },
  {
    name: "time_local",
    title: "Time at the place",
    description: "The same, ISO 8601 with the offset at the place; empty where the zone was not known.",
    datatype: "dateTime",
    of: ({ note, visit }) => localTime(note.at, visit.head.zone),
  },
  {
    name: "text",
    title: "Note's words",
    description: "The note in its own words.",
    datatype: "string",
    of: ({ note }) => note.text,
  },
  {
    name: "task",
    title: "Task",
    description: "Place of the task among those of the note, from 1; 0 where the note says of none.",
    datatype: "integer",
    required: true,
    of: ({ place }) => place ?? 0,
  },
  {
    name: "follow_up",
    title: "To be done",
    description:
      "Whether it is still to be done: a follow-up that nobody has marked as done. Empty where there is no task.",
    datatype: "boolean",
    of: ({ task, mark }) => task && !task.done && mark === null,
  },
  {
    name: "action",
    title: "Action",
    description: "What was done or is to be done.",
    datatype: "string",
    oneOf: TASK_ACTIONS,
    of: ({ task }) => task?.action.value ?? null,
  },
  {
    name: "task_words",
    title: "Task in words",
    description:
      "The task in a few words, as the record and the calendar have it: the note's own verb where it has one.",
    datatype: "string",
    of: ({ note, task }) => task && taskInShort(task, note.text),
  },
  {
    name: "thing",
    title: "Thing",
    description: "What it is done to, in the note's own words.",
    datatype: "string",
    of: ({ task }) => task?.thing?.value ?? null,
  },
  {
    name: "due",
    title: "Due",
    description: "When, as a day at the place, ISO 8601; empty where the words name no day.",
    datatype: "date",
    of: ({ task }) => task?.due?.value ?? null,
  },
  {
    name: "due_said",
    title: "When, as said",
    description:
      "The note's own words for when; empty where it says nothing, or a reviewer typed the day in.",
    datatype: "string",
    of: ({ task, note }) => (task?.due?.span ? note.text.slice(task.due.span.from, task.due.span.to) : null),
  },
  {
    name: "who",
    title: "Who",
    description: "Who is to do it, or is called or told: people by what they are to the visit.",
    datatype: "string",
    oneOf: ROLES,
    of: ({ task }) => task?.who?.value ?? null,
  },
  {
    name: "done_on",
    title: "Marked as done on",
    description:
      "Day, at the place of the visit, on which an office marked it as done; empty where none has.",
    datatype: "date",
    of: ({ visit, mark }) => mark && isoDay(mark.at, visit.head.zone),
  },
  {
    name: "done_by",
    title: "Marked as done by",
    description: "Who marked it, as typed in.",
    datatype: "string",
    of: ({ mark }) => mark?.by ?? null,
  },
  {
    name: "meaning_from",
    title: "Where the meaning is from",
    description: "Whether the note's meaning was read from its words alone, or a reviewer has said it.",
    datatype: "string",
    oneOf: ["words", "reviewer"],
    required: true,
    of: ({ note }) => note.by,
  },
];

/** One row a task of a note, or a note without one: standing notes only. */
export const NOTES = table<NoteRow>({
  name: "notes",
  title: "Notes and follow-ups",
  description:
    "One row for each thing that a note says was done or is to be done, or a note that says of none.",
  key: ["visit_id", "note_id", "task"],
  columns: [...IDENTITY, ...NOTED],
  rowsOf,
});
