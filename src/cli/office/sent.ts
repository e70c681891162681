import type { DerivedRows } from "./derive.ts";
import { COLUMNS, DERIVED, type DerivedName, type TableName, type Tables } from "./tables.ts";

/** Rows as they are sent to the server: of each table lines in the text format of COPY, "" for none. */
export type SentRows = Readonly<Record<DerivedName, string>>;

export function sentRows(rows: DerivedRows): SentRows {
  const sent = { visits: "", entries: "", readings: "", adjustments: "", follow_ups: "" };
  for (const table of DERIVED) sent[table] = copyLines(table, rows[table]);
  return sent;
}

/** Rows in the text format of PostgreSQL's COPY, a line each: columns with tabs between them, in the order of COLUMNS. */
export function copyLines<T extends TableName>(table: T, rows: readonly Tables[T][]): string {
  const columns = namesOf(table);
  return rows.map((row) => `${columns.map((name) => field(row[name])).join("\t")}\n`).join("");
}

function namesOf<T extends TableName>(table: T): (keyof Tables[T])[] {
  return Object.keys(COLUMNS[table]) as (keyof Tables[T])[];
}

function field(value: unknown): string {
  if (value === null) return "\\N";
  if (typeof value === "string") return escaped(STRANGE.test(value) ? storable(value) : value);
  return typeof value === "object" ? escaped(jsonOf(value)) : String(value);
}

/** What COPY takes for something else, or what PostgreSQL cannot hold: rare in most texts, and looked for because that is fast. */
const SPECIAL = /[\\\t\n\r]/g;
const STRANGE = /[\0\ud800-\udfff]/;

function escaped(text: string): string {
  return text.replace(SPECIAL, (sign) => ESCAPES[sign] ?? sign);
}

const ESCAPES: Readonly<Record<string, string>> = { "\\": "\\\\", "\t": "\\t", "\n": "\\n", "\r": "\\r" };

/** NUL and halves of a surrogate pair, as JSON writes them. */
const UNSTORABLE = /\\u(?:0000|d[89a-f])/;

function jsonOf(value: object): string {
  const text = JSON.stringify(value);
  return UNSTORABLE.test(text) ? JSON.stringify(value, replaced) : text;
}

function replaced(_key: string, value: unknown): unknown {
  return typeof value === "string" ? storable(value) : value;
}

/** A text that PostgreSQL can hold: a replacement character (U+FFFD) for NUL and for half a surrogate pair. The bundle keeps them. */
export function storable(text: string): string {
  return text.replaceAll("\0", "\uFFFD").toWellFormed();
}
