import { capital } from "../../measure/capital.ts";
import { foldVisit } from "../../visit/fold.ts";
import type { Role, Task, TaskAction } from "../../visit/task.ts";
import type { Visit } from "../../visit/visit.ts";

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

/** A note and what it means. */
export interface NoteLike {
  readonly id: string;
  readonly at: string;
  readonly text: string;
  readonly tasks: readonly Task[];
  readonly by: FollowUp["by"];
}

/** What the notes of a visit leave to be done, in the order of the notes. What was done in the visit is none. */
export function followUpsFrom(visitId: string, notes: readonly NoteLike[]): FollowUp[] {
  const seen = new Map<string, number>();
  return notes.flatMap(({ id, at, text, tasks, by }) =>
    tasks
      .filter(({ done }) => !done)
      .map(({ action, thing, due, who }) => {
        const content = JSON.stringify([
          visitId,
          id,
          action.value,
          thing?.value ?? null,
          due?.value ?? null,
          who?.value ?? null,
        ]);
        // A note may say the same twice.
        const times = (seen.get(content) ?? 0) + 1;
        seen.set(content, times);
        return {
          key: times === 1 ? content : `${content} ${times}`,
          visitId,
          noteId: id,
          at,
          note: text,
          action: action.value,
          thing: thing?.value ?? null,
          who: who?.value ?? null,
          due: due?.value ?? null,
          dueWords: due?.span ? text.slice(due.span.from, due.span.to) : null,
          by,
        };
      }),
  );
}

/** What a visit leaves to be done. */
export function followUpsOf(visit: Visit): FollowUp[] {
  const { items, tasks } = foldVisit(visit);
  const notes = items.flatMap(({ id, at, body, struckBy }): NoteLike[] =>
    body.kind === "note" && struckBy === null
      ? [{ id, at, text: body.text, tasks: tasks[id] ?? [], by: "reviewer" }]
      : [],
  );
  return followUpsFrom(visit.head.id, notes);
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

const ACTION_WORDS: Readonly<Record<TaskAction, string>> = {
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
  quote: "quote",
  other: "",
};

/** What is to be done, in short: "Replace condensate trap gasket"; a note of which only its words are known is given whole. */
export function followUpWords({ action, thing, who, note }: FollowUp): string {
  const act = ACTION_WORDS[action];
  const people = who !== null && (action === "call" || action === "tell" || action === "quote");
  const what = [act, people ? `the ${who}` : "", thing ?? ""].filter((part) => part !== "");
  if (what.length === 0) return note;
  const by = who !== null && !people ? ` (${who})` : "";
  return `${capital(what.join(" "))}${by}`;
}
