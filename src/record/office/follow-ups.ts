import type { Role, Task, TaskAction } from "../../visit/task.ts";
import type { Visit } from "../../visit/visit.ts";
import { type FollowUp as Exported, followUpsOf as followUpsIn } from "../export/follow-up.ts";
import { taskInShort } from "../task-words.ts";

/** Something that a note of a visit leaves to be done. Plain data. */
export interface FollowUp {
  /** The same for the same task of the same note, whatever else of the visit is mended; another where the task itself is. */
  readonly key: string;
  readonly visitId: string;
  readonly noteId: string;
  /** When it was noted, ISO 8601. */
  readonly at: string;
  /** The whole note. */
  readonly note: string;
  /** The task in a few words: "Replace condensate trap gasket". */
  readonly short: string;
  readonly action: TaskAction;
  /** In the note's own words; null where it names none. */
  readonly thing: string | null;
  readonly who: Role | null;
  /** YYYY-MM-DD at the place of the visit; null where the note names no day. */
  readonly due: string | null;
  /** The note's words for when: "before the heating season"; null where it says nothing, or the reviewer typed the day in. */
  readonly dueWords: string | null;
  /** Whether it comes from the note's words alone, or a reviewer has said so. */
  readonly by: "words" | "reviewer";
}

/** What the notes of a visit leave to be done, in the order of the notes; what was done in the visit is none. */
export function followUpsOf(visit: Visit): FollowUp[] {
  const all = followUpsIn([visit]).map((each): FollowUp => {
    const { note, task } = each;
    return {
      key: followUpKey(each),
      visitId: visit.head.id,
      noteId: note.id,
      at: note.at,
      note: note.text,
      short: taskInShort(task, note.text),
      ...contentOf(task),
      dueWords: task.due?.span ? note.text.slice(task.due.span.from, task.due.span.to) : null,
      by: note.by,
    };
  });
  // A note that says the same twice asks for it once.
  return all.filter(({ key }, place) => all.findIndex((other) => other.key === key) === place);
}

/** What tells a follow-up from every other. */
export function followUpKey({ visit, note, task }: Pick<Exported, "visit" | "note" | "task">): string {
  return JSON.stringify([visit.head.id, note.id, ...Object.values(contentOf(task))]);
}

function contentOf({ action, thing, who, due }: Task): Pick<FollowUp, "action" | "thing" | "who" | "due"> {
  return {
    action: action.value,
    thing: thing?.value ?? null,
    who: who?.value ?? null,
    due: due?.value ?? null,
  };
}

/** How a follow-up stands on a day (YYYY-MM-DD). */
export type DueStand = "overdue" | "today" | "later" | "undated";

export function dueStand({ due }: Pick<FollowUp, "due">, today: string): DueStand {
  if (due === null) return "undated";
  return due < today ? "overdue" : due === today ? "today" : "later";
}

/** The earliest due day first, then those without one, as noted. */
export function byDue(a: FollowUp, b: FollowUp): number {
  if (a.due !== b.due) return a.due === null ? 1 : b.due === null ? -1 : a.due < b.due ? -1 : 1;
  return a.at < b.at ? -1 : a.at > b.at ? 1 : 0;
}
