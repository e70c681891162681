import ucum from "@lhncbc/ucum-lhc";
import { parse } from "csv-parse/sync";
import fc from "fast-check";
import { describe, expect, test } from "vitest";
import { csvOf, csvPieces } from "../../../src/record/export/csv.ts";
import { METADATA_ENDING, metadataOf } from "../../../src/record/export/metadata.ts";
import { type Cell, type ColumnAbout, type Table, table } from "../../../src/record/export/table.ts";
import { TABLES } from "../../../src/record/export/tables.ts";
import { printable } from "../../../src/record/export/text.ts";
import { VISIT } from "../visit.ts";
import { exactWords } from "./exact-words.ts";
import { anyHostileVisit, anyText } from "./hostile.ts";
import { Metadata, readCsvw } from "./read-csvw.ts";

const reference = ucum.UcumLhcUtils.getInstance();
const tables: readonly Table[] = Object.values(TABLES);

/** A table of these rows, as texts unless the columns say otherwise. */
function rowsTable(rows: readonly (readonly Cell[])[], datatypes: readonly ColumnAbout["datatype"][]): Table {
  return table<readonly Cell[]>({
    name: "cases",
    title: "Cases",
    description: "Cases",
    key: ["c0"],
    columns: datatypes.map((datatype, place) => ({
      name: `c${place}`,
      title: `C ${place}`,
      description: "A case",
      datatype,
      of: (row) => row[place] ?? null,
    })),
    rowsOf: () => rows,
  });
}

const text = (rows: readonly (readonly Cell[])[]) =>
  csvOf(rowsTable(rows, rows[0]?.map((cell) => (typeof cell === "number" ? "double" : "string")) ?? []), [
    VISIT,
  ])
    .replace(/^\uFEFF/, "")
    .replace(/^.*\r\n/, "");

describe("RFC 4180, section 2", () => {
  test.each<[string, Cell[], string]>([
    ["2.1: each record on a line of its own, ended by CRLF", ["aaa", "bbb", "ccc"], "aaa,bbb,ccc\r\n"],
    ["2.4: blanks are part of a field", ["a a", " b", "c "], '"a a"," b","c "\r\n'],
    ["2.6: line ends in quotes", ["aaa", "b\r\nbb", "ccc"], 'aaa,"b\r\nbb",ccc\r\n'],
    ["2.6: commas in quotes", ["aaa", "b,bb", "ccc"], 'aaa,"b,bb",ccc\r\n'],
    ["2.7: a quote is doubled", ["aaa", 'b"bb', "ccc"], 'aaa,"b""bb",ccc\r\n'],
    ["nothing where nothing is known", ["aaa", null, "ccc"], "aaa,,ccc\r\n"],
    ["a number below zero stays a number", ["aaa", -0.4, -1e-7], "aaa,-0.4,-1e-7\r\n"],
    ["the same as a text does not", ["aaa", "-0.4", "ccc"], 'aaa,"\'-0.4",ccc\r\n'],
  ])("%s", (_what, cells, line) => expect(text([cells])).toBe(line));

  test("2.3: names of the columns first; a byte order mark before them, for spreadsheets", () => {
    const csv = csvOf(rowsTable([["x"]], ["string"]), [VISIT]);
    expect(csv).toBe("\uFEFFc0\r\nx\r\n");
    expect([...Buffer.from(csv).subarray(0, 3)]).toEqual([0xef, 0xbb, 0xbf]);
  });
});

test("any text comes back, its unprintable characters marked", () => {
  fc.assert(
    fc.property(fc.array(anyText, { minLength: 1, maxLength: 20 }), (texts) => {
      const csv = csvOf(
        rowsTable(
          texts.map((one) => ["x", one, "y"]),
          ["string", "string", "string"],
        ),
        [VISIT],
      );
      const [, ...records]: string[][] = parse(Buffer.from(csv), { bom: true, record_delimiter: ["\r\n"] });
      expect(records.map(([, cell = ""]) => exactWords(cell))).toEqual(texts.map(printable));
    }),
    { numRuns: 400 },
  );
});

describe.each(tables)("the table $name", (each) => {
  const metadata = metadataOf(each, `${each.name}.csv`);

  test("is read by its metadata, whatever was said, with every value the same", () => {
    fc.assert(
      fc.property(fc.array(anyHostileVisit, { minLength: 1, maxLength: 3 }), (some) => {
        const visits = some.map((visit, place) => ({ ...visit, head: { ...visit.head, id: `v${place}` } }));
        const rows = [...each.rows(visits)];
        const names = each.columns.map(({ name }) => name);
        const read = readCsvw(csvOf(each, visits), metadata).map((row) =>
          names.map((name) => row[name] ?? null),
        );
        expect(read.map((cells) => cells.map(back))).toEqual(rows.map((cells) => cells.map(known)));
      }),
      { numRuns: 150 },
    );
    function back(cell: Cell): Cell {
      return typeof cell === "string" ? exactWords(cell) : cell;
    }
    function known(cell: Cell): Cell {
      return typeof cell === "string" ? printable(cell) || null : cell;
    }
  });

  test("has columns of their own names, each described, and a key among them", () => {
    const { tableSchema, url } = Metadata.parse(JSON.parse(metadata));
    const names = tableSchema.columns.map(({ name }) => name);
    expect(url).toBe(`${each.name}.csv`);
    expect(new Set(names).size).toBe(names.length);
    expect(names).toEqual(expect.arrayContaining(tableSchema.primaryKey));
  });

  test("has UCUM units only", () => {
    const codes = each.columns.flatMap(({ name, unit, oneOf = [] }) => [
      ...(unit === undefined ? [] : [unit]),
      ...(/unit$/.test(name) ? oneOf : []),
    ]);
    for (const code of codes)
      expect([code, reference.validateUnitString(code).status]).toEqual([code, "valid"]);
    if (each === TABLES.readings) expect(codes.length).toBeGreaterThan(20);
  });
});

test("in pieces it is the same file", () => {
  const rows = Array.from({ length: 12_001 }, (_, place) => [`r${place}`]);
  const many = rowsTable(rows, ["string"]);
  const pieces = [...csvPieces(many, [VISIT])];
  expect(pieces.length).toBeGreaterThan(2);
  expect(pieces.join("")).toBe(csvOf(many, [VISIT]));
  expect(pieces.join("").split("\r\n")).toHaveLength(rows.length + 2);
});

test("the metadata's file is where CSV on the Web looks for it", () => {
  // "Model for Tabular Data and Metadata on the Web", section 5.3, from memory: {+url}-metadata.json.
  expect(`readings.csv${METADATA_ENDING}`).toBe("readings.csv-metadata.json");
});
