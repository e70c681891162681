import type { DerivedRows } from "./derive.ts";
import { DERIVED, type DerivedName } from "./tables.ts";

/** Rows as they are sent to the server: of each table JSON objects with commas between them, "" for none. */
export type SentRows = Readonly<Record<DerivedName, string>>;

export function sentRows(rows: DerivedRows): SentRows {
  const sent = { visits: "", entries: "", readings: "", adjustments: "", follow_ups: "" };
  for (const table of DERIVED) sent[table] = sentObjects(rows[table]);
  return sent;
}

/** JSON objects with commas between them. */
export function sentObjects(rows: readonly object[]): string {
  const text = JSON.stringify(rows);
  // What PostgreSQL cannot hold is rare, and looked for in the text because that is fast.
  const safe = UNSTORABLE.test(text) ? JSON.stringify(rows, replaced) : text;
  return safe.slice(1, -1);
}

/** NUL and halves of a surrogate pair, as JSON writes them. */
const UNSTORABLE = /\\u(?:0000|d[89a-f])/;

function replaced(_key: string, value: unknown): unknown {
  return typeof value === "string" ? storable(value) : value;
}

/** A text that PostgreSQL can hold: a replacement character (U+FFFD) for NUL and for half a surrogate pair. The bundle keeps them. */
export function storable(text: string): string {
  return text.replaceAll("\0", "\uFFFD").toWellFormed();
}
