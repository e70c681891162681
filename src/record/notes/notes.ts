import type { LoggedItem, VisitState } from "../../visit/state.ts";
import type { Task } from "../../visit/task.ts";
import { tasksOf } from "./tasks.ts";

/** A note that stands, with what it asks for. */
export interface NoteRecord {
  /** Id of its entry. */
  readonly id: string;
  readonly seq: number;
  /** When it was said, ISO 8601. */
  readonly at: string;
  readonly text: string;
  readonly tasks: readonly Task[];
  /** Whether its words say so, or a reviewer does. */
  readonly by: "words" | "reviewer";
}

/** The notes of a visit that stand, in order. */
export function notesOf(state: VisitState): NoteRecord[] {
  return state.items.flatMap((item) => {
    const note = noteOf(state, item);
    return note ? [note] : [];
  });
}

/** A note that stands; null where the item is none. */
export function noteOf(state: VisitState, item: LoggedItem): NoteRecord | null {
  const { id, seq, at, body, struckBy } = item;
  if (body.kind !== "note" || struckBy !== null) return null;
  const mended = Object.hasOwn(state.tasks, id) ? state.tasks[id] : undefined;
  const tasks = mended ?? tasksInWords(state, item);
  return { id, seq, at, text: body.text, tasks, by: mended ? "reviewer" : "words" };
}

/** Items are never changed: each is read once. */
const read = new WeakMap<LoggedItem, { readonly zone: string | null; readonly tasks: readonly Task[] }>();

/** What the words of a note ask for, whatever a reviewer has made of them; nothing where the item is no note. */
export function tasksInWords({ head: { zone } }: VisitState, item: LoggedItem): readonly Task[] {
  if (item.body.kind !== "note") return [];
  const known = read.get(item);
  if (known?.zone === zone) return known.tasks;
  const tasks = tasksOf(item.body.text, item.at, zone);
  read.set(item, { zone, tasks });
  return tasks;
}
