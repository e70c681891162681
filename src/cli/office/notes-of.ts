import type { VisitState } from "../../visit/state.ts";
import type { Task } from "../../visit/task.ts";
export interface NoteRecord {
  readonly id: string;
  readonly seq: number;
  readonly at: string;
  readonly text: string;
  readonly tasks: readonly Task[];
  readonly by: "words" | "reviewer";
}
export function notesOf(state: VisitState): NoteRecord[] {
  return state.items.flatMap(({ id, seq, at, body, struckBy }) =>
    body.kind === "note" && struckBy === null
      ? [{ id, seq, at, text: body.text, tasks: state.tasks[id] ?? [], by: "reviewer" as const }]
      : [],
  );
}
