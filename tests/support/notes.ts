import { readFileSync } from "node:fs";
import { tasksOf } from "../../src/record/notes/tasks.ts";
import type { Task } from "../../src/visit/task.ts";

/** When and where the notes of the corpora were said, unless their line says otherwise. */
export const SAID = { at: "2026-11-26T10:00:00Z", zone: "Europe/London" } as const;

/** A task in short: "[done ]action[=thing][@day|@?words][>role]". */
export function shortTask({ action, thing, due, who, done }: Task, text: string): string {
  const when = due && (due.value ?? `?${due.span ? text.slice(due.span.from, due.span.to) : ""}`);
  return [
    done ? "done " : "",
    action.value,
    thing ? `=${thing.value}` : "",
    when ? `@${when}` : "",
    who ? `>${who.value}` : "",
  ].join("");
}

/** All of a note in short; "-" where it asks for nothing. */
export function shortTasks(text: string, at: string = SAID.at, zone: string | null = SAID.zone): string {
  return (
    tasksOf(text, at, zone)
      .map((task) => shortTask(task, text))
      .join("; ") || "-"
  );
}

export interface NoteLine {
  readonly text: string;
  /** What it asks for. */
  readonly expected: string;
  /** What it is read as where that is something else, told in a third column: a known shortcoming; null where it is read right. */
  readonly readAs: string | null;
}

/** The lines of a corpus: the note, its tasks in short, and what it is read as instead. */
export function noteLines(file: string): NoteLine[] {
  const path = new URL(`../corpus/notes/${file}`, import.meta.url);
  return readFileSync(path, "utf8")
    .split("\n")
    .filter((line) => line.trim() !== "" && !line.startsWith("#"))
    .map((line) => {
      const [text = "", expected = "", readAs] = line.split(" | ");
      return { text: text.trim(), expected: sorted(expected), readAs: readAs ? sorted(readAs) : null };
    });
}

/** Day and role in one order, however a line has them. */
function sorted(expected: string): string {
  return expected
    .split(";")
    .map((task) => {
      const [, head = "", role = "", day = ""] = /^([^@>]*)(>\w+)(@.*)$/.exec(task.trim()) ?? [];
      return role === "" ? task.trim() : `${head}${day}${role}`;
    })
    .join("; ");
}
