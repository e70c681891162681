import ExcelJS from "exceljs";
import fc from "fast-check";
import { describe, expect, test } from "vitest";
import { workbookBytes } from "../../../src/cli/export/workbook.ts";
import { NONE_DONE } from "../../../src/record/export/done-marks.ts";
import type { Cell, Table } from "../../../src/record/export/table.ts";
import { TABLES } from "../../../src/record/export/tables.ts";
import { printable } from "../../../src/record/export/text.ts";
import { MOST_LETTERS, type WorkbookSheet, workbookOf } from "../../../src/record/export/workbook.ts";
import type { Visit } from "../../../src/visit/visit.ts";
import { reviewVisit } from "../../support/review-visit.ts";
import { VISIT } from "../visit.ts";
import { anyHostileVisit, anyText, OWN_NAMES } from "./hostile.ts";

// Outside reference: exceljs, which shares no code with what wrote the file.

function sheetsOf(visits: readonly Visit[]): readonly WorkbookSheet[] {
  const made = workbookOf(visits);
  if (!made.ok) throw new Error(made.problem);
  return made.sheets;
}

async function read(sheets: readonly WorkbookSheet[]): Promise<ExcelJS.Workbook> {
  const book = new ExcelJS.Workbook();
  await book.xlsx.load(Buffer.from(await workbookBytes(sheets)) as unknown as ExcelJS.Buffer);
  return book;
}

/** A value as exceljs reads it; of what is no plain value its shape, so that a formula or link would show. */
type Read = string | number | boolean | null;
function cellOf(sheet: ExcelJS.Worksheet, row: number, column: number): Read {
  const { value } = sheet.getCell(row, column);
  if (value === null || value === undefined) return null;
  if (value instanceof Date) return value.toISOString();
  return typeof value === "object" ? JSON.stringify(value) : value;
}

const tables: readonly Table[] = Object.values(TABLES);

/** A cell of a table as a reader of the workbook should find it. */
function expected(cell: Cell, datatype: string): Read {
  if (typeof cell !== "string") return cell;
  if (datatype === "date") return `${cell}T00:00:00.000Z`;
  if (datatype === "dateTime") return `${cell.slice(0, 23)}Z`;
  return printable(cell) || null;
}

test("every cell of every table is read back: texts, numbers, times, nothing else", async () => {
  await fc.assert(
    fc.asyncProperty(fc.array(anyHostileVisit, { minLength: 1, maxLength: 3 }), async (visits) => {
      const book = await read(sheetsOf(visits));
      for (const { title, columns, rows } of tables) {
        const sheet = book.getWorksheet(title);
        if (!sheet) throw new Error(`no sheet ${title}`);
        const wanted = [...rows(visits)].map((row) =>
          row.map((cell, place) => expected(cell, columns[place]?.datatype ?? "")),
        );
        const found = wanted.map((row, y) => row.map((_cell, x) => cellOf(sheet, y + 2, x + 1) || null));
        expect(found).toEqual(wanted.map((row) => row.map((cell) => cell || null)));
        expect(sheet.actualRowCount).toBe(wanted.length + 1);
        sheet.eachRow((row) => row.eachCell(({ type }) => expect(type).not.toBe(ExcelJS.ValueType.Formula)));
      }
    }),
    { numRuns: 40 },
  );
});

describe("of a visit", () => {
  const visits = [reviewVisit({ zone: "Europe/Vienna" })];

  test("the sheets are those of the tables and one of the columns, each with its header in sight", async () => {
    const book = await read(sheetsOf(visits));
    expect(book.worksheets.map(({ name }) => name)).toEqual([
      "Visits",
      "Readings",
      "Turns",
      "Notes and follow-ups",
      "Columns",
    ]);
    for (const sheet of book.worksheets) {
      expect(sheet.views[0]).toMatchObject({ state: "frozen", ySplit: 1 });
      expect(sheet.getRow(1).getCell(1).font?.bold).toBe(true);
    }
  });

  test("numbers and times are real cells; a time at the place is as its clock showed it", async () => {
    const sheet = (await read(sheetsOf(visits))).getWorksheet("Readings");
    const column = (name: string) => TABLES.readings.columns.findIndex((each) => each.name === name) + 1;
    const at = (name: string) => sheet?.getCell(2, column(name));
    expect([at("value")?.type, at("value")?.value]).toEqual([ExcelJS.ValueType.Number, 7]);
    const [utc, local] = [at("time"), at("time_local")];
    expect([utc?.type, local?.type]).toEqual([ExcelJS.ValueType.Date, ExcelJS.ValueType.Date]);
    expect(Number(local?.value) - Number(utc?.value)).toBe(60 * 60 * 1000);
    expect(local?.numFmt).toBe("yyyy-mm-dd hh:mm:ss");
  });

  test("the last sheet says what every column is", async () => {
    const sheet = (await read(sheetsOf(visits))).getWorksheet("Columns");
    expect(sheet?.actualRowCount).toBe(1 + tables.reduce((sum, { columns }) => sum + columns.length, 0));
    const names = sheet?.getColumn(3).values.slice(2);
    expect(names).toEqual(tables.flatMap(({ columns }) => columns.map(({ name }) => name)));
  });
});

const titled = (title: string): Visit => ({ ...VISIT, head: { ...VISIT.head, title } });
const noted = (text: string): Visit => ({
  ...VISIT,
  entries: VISIT.entries.slice(0, 1).map((entry) => ({ ...entry, body: { kind: "note", text } })),
});

describe("text that a spreadsheet could run", () => {
  test.each(["=1+1", '=HYPERLINK("http://example.invalid")', "+1", "-1", "@A1", "\t=1", "＝1", " =1"])(
    "%j is a text, and stays one when the cell is edited",
    async (title) => {
      const sheet = (await read(sheetsOf([titled(title)]))).getWorksheet("Visits");
      const cell = sheet?.getCell(2, 1);
      expect([cell?.type, cell?.value, cell?.numFmt]).toEqual([ExcelJS.ValueType.String, title, "@"]);
    },
  );

  // The writer keeps its texts in an object.
  test.each(OWN_NAMES)("%s is a text as any other", async (title) => {
    const sheet = (await read(sheetsOf([titled(title)]))).getWorksheet("Visits");
    expect(sheet?.getCell(2, 1).value).toBe(title);
  });

  test("other text is no such", async () => {
    const sheet = (await read(sheetsOf([titled("Boiler 1 - cellar")]))).getWorksheet("Visits");
    expect(sheet?.getCell(2, 1).numFmt).toBeUndefined();
  });
});

test("any text is read back, what no XML may hold marked", async () => {
  await fc.assert(
    fc.asyncProperty(fc.array(anyText, { minLength: 1, maxLength: 15 }), async (texts) => {
      const sheet = (await read(sheetsOf(texts.map(noted)))).getWorksheet("Notes and follow-ups");
      const column = TABLES.notes.columns.findIndex(({ name }) => name === "text") + 1;
      const found = texts.map((_text, row) => sheet?.getCell(row + 2, column).value ?? "");
      expect(found).toEqual(texts.map(printable));
    }),
    { numRuns: 60 },
  );
});

describe("limits of a workbook (Microsoft, “Excel specifications and limits”)", () => {
  test.each([
    [32_766, 0],
    [32_767, 0],
    [32_768, 1],
    [100_000, 1],
  ])("a text of %i letters: %i cut, and it says so", async (length, cut) => {
    const text = "🔥".repeat(length / 2) + "x".repeat(length % 2);
    const made = workbookOf([noted(text)]);
    // The note's words are in one cell, the phrase that it came from is in none.
    expect(made).toMatchObject({ ok: true, cut });
    const sheet = (await read(sheetsOf([noted(text)]))).getWorksheet("Notes and follow-ups");
    const column = TABLES.notes.columns.findIndex(({ name }) => name === "text") + 1;
    const found = String(sheet?.getCell(2, column).value);
    expect(found.length).toBeLessThanOrEqual(MOST_LETTERS);
    if (cut === 0) expect(found).toBe(text);
    else
      expect(found).toMatch(
        new RegExp(`🔥… \\(cut here: ${length} characters; the visit bundle has them all\\)$`, "u"),
      );
  });

  test("more rows than a sheet can have are refused, never cut", () => {
    const visits = Array.from({ length: 5 }, () => VISIT);
    expect(workbookOf(visits, NONE_DONE, 16)).toMatchObject({ ok: true });
    expect(workbookOf(visits, NONE_DONE, 15)).toEqual({
      ok: false,
      problem:
        "Expected at most 14 rows of readings, which is what a workbook's sheet can have, found more. Export fewer visits, or a CSV table.",
    });
  });

  test("sheets' names have at most 31 letters and none that is not allowed", () => {
    for (const { sheet } of sheetsOf([VISIT])) expect(sheet).toMatch(/^[^[\]/\\:*?]{1,31}$/);
  });
});

test("a time before its calendar begins stays text", async () => {
  const old: Visit = { ...VISIT, head: { ...VISIT.head, startedAt: "1899-12-31T09:00:00Z" } };
  const sheet = (await read(sheetsOf([old]))).getWorksheet("Visits");
  expect(sheet?.getCell(2, 4).value).toBe("1899-12-31T09:00:00.000Z");
});
