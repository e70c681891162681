import { harmless, shortText } from "../../measure/harmless.ts";
import type { Task } from "../../visit/task.ts";
import type { NoteRecord } from "../notes/notes.ts";
import { dueInWords, taskInShort } from "../task-words.ts";
import { clockTime } from "../wording.ts";
import { type Block, type Cell, cell } from "./parts.ts";
import { moreOf, shortened } from "./shortened.ts";

/** So many notes are told, each at most so long. */
const MOST = 60;
const LETTERS = 280;
const MOST_TASKS = 20;

/** The notes in their own words, and beside each what follows from it. */
export function noteBlocks(notes: readonly NoteRecord[], zone: string | null): Block[] {
  if (notes.length === 0) return [{ kind: "text", text: "No note was taken." }];
  const { shown, more } = shortened(notes, MOST);
  return [
    {
      kind: "table",
      columns: ["Time", "Note", "What follows from it"],
      rows: shown.map((note) => rowOf(note, zone)),
    },
    ...(more === "" ? [] : [{ kind: "text", text: more } as const]),
  ];
}

function rowOf({ at, text, tasks, by }: NoteRecord, zone: string | null): Cell[] {
  const left = tasks.length - MOST_TASKS;
  const said = tasks.slice(0, MOST_TASKS).map((task) => taskSaid(task, text));
  return [
    cell(clockTime(at, zone)),
    cell(`“${shortText(text, LETTERS)}”`),
    cell(
      said.join("; ") || "–",
      [left > 0 ? moreOf(left) : "", by === "reviewer" && tasks.length > 0 ? "as the reviewer has it" : ""]
        .filter((word) => word !== "")
        .join(" "),
    ),
  ];
}

/** "Follow-up: replace condensate trap gasket, 1 Dec 2026", in the words that the screen and the calendar have. */
export function taskSaid(task: Task, text: string): string {
  const short = taskInShort(task, text);
  const when = harmless(dueInWords(task, text));
  const what = shortText(`${short.slice(0, 1).toLowerCase()}${short.slice(1)}`, 120);
  return `${task.done ? "Done" : "Follow-up"}: ${what}${when && `, ${when}`}`;
}
