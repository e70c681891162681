import type { Entry } from "./entry.ts";
import { isSame } from "./questions.ts";

/** What one phrase gave: all its entries. */
export type Utterance = readonly [Entry, ...Entry[]];

/** Entries by the phrase that gave them: they were stored together, at one time. */
export function utterancesOf(entries: readonly Entry[]): readonly Utterance[] {
  const groups: [Entry, ...Entry[]][] = [];
  for (const entry of entries) {
    const last = groups.at(-1);
    if (last && isSame(last[0], entry)) last.push(entry);
    else groups.push([entry]);
  }
  return groups;
}
