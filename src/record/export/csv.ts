import Papa from "papaparse";
import type { Visit } from "../../visit/visit.ts";
import { type DoneMarks, NONE_DONE } from "./done-marks.ts";
import { harmless } from "./formula.ts";
import type { Cell, Table } from "./table.ts";
import { printable } from "./text.ts";

/** So that spreadsheets read UTF-8 and not the code page of the system: "°" and "ä" would come out as two letters each. */
const BYTE_ORDER_MARK = "\uFEFF";

/** Rows that are written at once: the text of all of them twice over is never in memory. */
const ROWS = 5000;

/**
 * A table as CSV (RFC 4180): commas, CRLF after every row, names of the columns first, quotes around whatever is more than
 * letters, digits and a few signs. UTF-8 with a byte order mark. Numbers as JSON writes them, so that reading gives the same
 * number back; booleans true and false; nothing where nothing is known. Texts are made `printable` and `harmless`.
 */
export function csvOf(table: Table, visits: readonly Visit[], done: DoneMarks = NONE_DONE): string {
  return [...csvPieces(table, visits, done)].join("");
}

/** The same in pieces, for files larger than one text can be. */
export function* csvPieces(
  table: Table,
  visits: readonly Visit[],
  done: DoneMarks = NONE_DONE,
): Iterable<string> {
  yield BYTE_ORDER_MARK + linesOf([table.columns.map(({ name }) => name)]);
  let rows: Cell[][] = [];
  for (const row of table.rows(visits, done)) {
    rows.push(row.map((cell, place) => (isText(table, place) ? safe(cell) : cell)));
    if (rows.length < ROWS) continue;
    yield linesOf(rows);
    rows = [];
  }
  if (rows.length > 0) yield linesOf(rows);
}

function linesOf(rows: readonly (readonly Cell[])[]): string {
  const text = Papa.unparse(
    rows.map((row) => [...row]),
    { newline: "\r\n", quotes: (cell: unknown) => typeof cell === "string" && !/^[\w.:+-]*$/.test(cell) },
  );
  return `${text}\r\n`;
}

function isText({ columns }: Table, place: number): boolean {
  return columns[place]?.datatype === "string";
}

function safe(cell: Cell): Cell {
  return typeof cell === "string" ? harmless(printable(cell)) : cell;
}
