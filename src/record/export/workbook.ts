import type { Visit } from "../../visit/visit.ts";
import { type DoneMarks, NONE_DONE } from "./done-marks.ts";
import { isFormula } from "./formula.ts";
import type { Cell, ColumnAbout, Datatype, Table } from "./table.ts";
import { TABLES } from "./tables.ts";
import { printable } from "./text.ts";

/** A cell as the workbook's writer takes it; its type is that of the value, so that none is ever a formula. */
export interface SheetCell {
  readonly value: string | number | boolean | Date;
  readonly format?: string;
  readonly fontWeight?: "bold";
}

/** One sheet of a workbook. */
export interface WorkbookSheet {
  readonly sheet: string;
  /** The header row first. */
  readonly data: (SheetCell | null)[][];
  /** Widths in letters. */
  readonly columns: { width: number }[];
  /** The header row stays in sight. */
  readonly stickyRowsCount: 1;
}

export type Workbook =
  | {
      readonly ok: true;
      readonly sheets: readonly WorkbookSheet[];
      /** Texts that were too long for a cell and are cut, each with words at its end that say so. */
      readonly cut: number;
    }
  | { readonly ok: false; readonly problem: string };

/** Rows of a sheet, the header with them (Microsoft, "Excel specifications and limits"). */
const MOST_ROWS = 1_048_576;
/** UTF-16 units of a cell's text (the same). */
export const MOST_LETTERS = 32_767;

/**
 * Visits as a workbook: a sheet for each table, and one that says what the columns are. Numbers, days and times are real
 * cells; times are as at the clock they name, for a spreadsheet knows no zones. Texts are `printable`; they are no formulas
 * here, and stay none when somebody edits the cell. More rows than a sheet can have are refused, never cut.
 */
export function workbookOf(
  visits: readonly Visit[],
  done: DoneMarks = NONE_DONE,
  mostRows = MOST_ROWS,
): Workbook {
  const sheets: WorkbookSheet[] = [];
  let cut = 0;
  for (const table of Object.values(TABLES)) {
    const data = [headerOf(table.columns.map(({ title }) => title))];
    for (const row of table.rows(visits, done)) {
      if (data.length === mostRows) return { ok: false, problem: tooMany(table, mostRows) };
      data.push(
        row.map((cell, place) => {
          const made = cellOf(cell, table.columns[place]?.datatype ?? "string");
          if (made?.isCut) cut += 1;
          return made?.cell ?? null;
        }),
      );
    }
    sheets.push({ sheet: table.title, data, columns: table.columns.map(widthOf), stickyRowsCount: 1 });
  }
  sheets.push(dictionary());
  return { ok: true, sheets, cut };
}

/** What a person should know of texts that were cut; null where none was. */
export function cutNotice(cut: number): string | null {
  if (cut === 0) return null;
  return `${cut === 1 ? "One text was" : `${cut} texts were`} too long for a cell and cut; the visit bundle has all of it.`;
}

function tooMany({ title }: Table, mostRows: number): string {
  return `Expected at most ${mostRows - 1} rows of ${title.toLowerCase()}, which is what a workbook's sheet can have, found more. Export fewer visits, or a CSV table.`;
}

interface Made {
  readonly cell: SheetCell;
  readonly isCut: boolean;
}

function cellOf(cell: Cell, datatype: Datatype): Made | null {
  if (cell === null) return null;
  if (typeof cell !== "string") return { cell: { value: cell }, isCut: false };
  return timeCell(cell, datatype) ?? textCell(cell);
}

/** As a spreadsheet shows it: ISO 8601 without the T and the offset. */
const FORMATS: Readonly<Partial<Record<Datatype, string>>> = {
  date: "yyyy-mm-dd",
  dateTime: "yyyy-mm-dd hh:mm:ss",
};

/** Before that its calendar has a day that never was, 29 February 1900. */
const FIRST_DAY = "1900-03-01";

/** A day or time as a real one; null for what a spreadsheet's calendar does not reach, which stays text. */
function timeCell(iso: string, datatype: Datatype): Made | null {
  const format = FORMATS[datatype];
  if (format === undefined || !/^\d{4}-/.test(iso) || iso < FIRST_DAY) return null;
  // What the clock at the place showed: the offset is left out.
  const clock = datatype === "date" ? `${iso}T00:00:00.000Z` : `${iso.slice(0, 23)}Z`;
  return { cell: { value: new Date(clock), format }, isCut: false };
}

function textCell(text: string): Made {
  const shown = printable(text);
  const isCut = shown.length > MOST_LETTERS;
  const value = escaped(isCut ? cutShort(shown) : shown);
  // As text by its format too: else editing the cell would make a formula of it.
  return { cell: isFormula(shown) ? { value, format: "@" } : { value }, isCut };
}

function cutShort(text: string): string {
  const words = `… (cut here: ${text.length} characters; the visit bundle has them all)`;
  return text.slice(0, MOST_LETTERS - words.length).replace(/[\uD800-\uDBFF]$/, "") + words;
}

/**
 * What XML or its writer would change, as ECMA-376 part 1, section 22.9.2.19 (ST_Xstring) has it: a carriage return, which
 * readers of XML make a line feed; U+FFFD, which the writer leaves out; what only looks like such an escape; and words such as
 * "valueOf", which the writer takes for what every object has. A cell's limit counts what stands for, not the escape.
 */
function escaped(text: string): string {
  if (Object.hasOwn(Object.prototype, text)) return codeOf(text) + text.slice(1);
  return text.replace(/[\r\uFFFD]|_(?=x[\dA-Fa-f]{4}_)/g, codeOf);
}

/** The escape of the first character. */
function codeOf(character: string): string {
  return `_x${character.charCodeAt(0).toString(16).toUpperCase().padStart(4, "0")}_`;
}

const WIDTHS: Readonly<Record<Datatype, number>> = {
  string: 18,
  double: 10,
  integer: 10,
  boolean: 10,
  date: 12,
  dateTime: 20,
};

function widthOf({ datatype, title }: ColumnAbout): { width: number } {
  return { width: Math.max(WIDTHS[datatype], title.length + 2) };
}

function headerOf(titles: readonly string[]): (SheetCell | null)[] {
  return titles.map((value) => ({ value, fontWeight: "bold" }));
}

/** What every column of every sheet is. */
function dictionary(): WorkbookSheet {
  const rows = Object.values(TABLES).flatMap(({ title, columns }) =>
    columns.map((column) => [
      title,
      column.title,
      column.name,
      column.description,
      column.datatype,
      column.unit ?? "",
      column.oneOf?.join(", ") ?? "",
    ]),
  );
  const header = headerOf([
    "Sheet",
    "Column",
    "Name in CSV",
    "What it is",
    "Datatype",
    "UCUM unit",
    "Values",
  ]);
  const data = [
    header,
    ...rows.map((row) => row.map((value) => (value === "" ? null : textCell(value).cell))),
  ];
  return {
    sheet: "Columns",
    data,
    columns: [22, 28, 20, 80, 10, 10, 60].map((width) => ({ width })),
    stickyRowsCount: 1,
  };
}
