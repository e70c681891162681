import { visible } from "../../measure/harmless.ts";
import type { Task } from "../../visit/task.ts";

/** What a stretch of a note's words was taken for. */
const FROM = ["action", "thing", "due", "who"] as const;
export type From = (typeof FROM)[number];

/** Words of a note, and what came from them; null for what nothing came from. */
export interface NoteWords {
  readonly text: string;
  readonly from: From | null;
}

/** A note's words in order, whole. Where one word was taken for more than one thing, the first of `FROM` has it. */
export function noteWords(text: string, tasks: readonly Task[]): NoteWords[] {
  const ofLetter: (From | null)[] = Array.from({ length: text.length }, () => null);
  for (const from of FROM.toReversed())
    for (const task of tasks) {
      const span = task[from]?.span;
      if (span) ofLetter.fill(from, span.from, span.to);
    }
  const words: NoteWords[] = [];
  let start = 0;
  for (let end = 1; end <= text.length; end++) {
    if (end < text.length && ofLetter[end] === ofLetter[start]) continue;
    words.push({ text: visible(text.slice(start, end)), from: ofLetter[start] ?? null });
    start = end;
  }
  return words;
}
