import { readFileSync } from "node:fs";
import Ajv2020 from "ajv/dist/2020.js";
import addFormats from "ajv-formats";
import { parse } from "csv-parse/sync";
import ICAL from "ical.js";
import { describe, expect, test } from "vitest";
import { fileNameOf } from "../../src/app/start/visit-title.ts";
import { readFonts } from "../../src/device/pdf/fonts-node.ts";
import { makePdf } from "../../src/device/pdf/make.ts";
import { visible } from "../../src/measure/harmless.ts";
import { exportVisit, importVisit } from "../../src/record/bundle.ts";
import { calendarOf } from "../../src/record/export/calendar.ts";
import { csvOf } from "../../src/record/export/csv.ts";
import { isFormula } from "../../src/record/export/formula.ts";
import { TABLES } from "../../src/record/export/tables.ts";
import { workbookOf } from "../../src/record/export/workbook.ts";
import { officeRow } from "../../src/record/office/row.ts";
import { coveredByAll } from "../../src/record/report/family.ts";
import { recordPdf } from "../../src/record/report/pdf.ts";
import { reportOf } from "../../src/record/report/report.ts";
import { sheetFileName } from "../../src/record/sheet-file.ts";
import type { Visit } from "../../src/visit/visit.ts";
import { cli } from "../support/cli.ts";
import { testFolder } from "../support/folder.ts";
import { hostileVisit, RUNS_FIRST, STEERS_FIRST, TRICK_NAMES, TRICKS } from "../support/hostile-visit.ts";
import { reviewVisit } from "../support/review-visit.ts";
import { OWN_NAMES } from "./export/hostile.ts";
import { NOT_LINKED } from "./report/sections.ts";

// The same tricks through everything that comes out; the screens are those of tests/browser/hostile.test.ts.

const NOW = "2026-11-26T12:00:00.000Z";
const { file } = testFolder();
const ajv = new Ajv2020({ strict: false });
addFormats(ajv);
const fits = ajv.compile(JSON.parse(readFileSync("src/record/schema/visit-1.schema.json", "utf8")));

/** Every text in a value. */
const textsIn = (value: unknown): string[] =>
  typeof value === "string"
    ? [value]
    : typeof value === "object" && value !== null
      ? Object.values(value).flatMap(textsIn)
      : [];
/** Texts that steer what stands around them. */
const steering = (value: unknown) => textsIn(value).filter((text) => text !== visible(text));

const CASES: [name: string, trick: string][] = [
  ...TRICK_NAMES.map((name): [string, string] => [name, TRICKS[name]]),
  ["all, what steers in front", STEERS_FIRST],
  ["all, what would run in front", RUNS_FIRST],
];

describe.each(CASES)("%s", (name, trick) => {
  const visit = hostileVisit(trick);

  test("is kept exactly, in a bundle that the published schema takes", () => {
    const text = exportVisit(visit);
    expect(importVisit(text)).toEqual({ ok: true, visit });
    expect([fits(JSON.parse(text)), fits.errors]).toEqual([true, null]);
  });

  test("turns and hides nothing in the record", () => {
    expect(steering(reportOf(visit, NOW, NOT_LINKED))).toEqual([]);
  });

  test("is no formula in a table, and one row stays one row", () => {
    for (const table of Object.values(TABLES)) {
      const rows: string[][] = parse(csvOf(table, [visit]), { bom: true });
      expect(rows.length).toBe(1 + [...table.rows([visit])].length);
      expect(
        rows.flat().filter((cell) => isFormula(cell) && !cell.startsWith("'") && Number.isNaN(Number(cell))),
      ).toEqual([]);
    }
  });

  test("is text in a workbook", () => {
    const book = workbookOf([visit]);
    const cells = book.ok ? book.sheets.flatMap(({ data }) => data.flat()) : [];
    expect(cells.length).toBeGreaterThan(100);
    const loose = cells.filter(
      (cell) => typeof cell?.value === "string" && isFormula(cell.value) && cell.format !== "@",
    );
    expect(loose).toEqual([]);
  });

  test("is words of an appointment, and no part of a calendar", () => {
    const calendar = new ICAL.Component(ICAL.parse(calendarOf([visit], NOW)));
    const parts = calendar.getAllSubcomponents();
    expect(parts.map((part) => part.name).sort()).toEqual(["vevent", "vtodo"]);
    expect(parts.flatMap((part) => part.getAllSubcomponents())).toEqual([]);
    const words = parts.flatMap((part) =>
      ["summary", "description", "location"].map((each) => String(part.getFirstPropertyValue(each) ?? "")),
    );
    expect(words.flatMap((each) => each.split("\n")).filter((each) => each !== visible(each))).toEqual([]);
  });

  test("is no part of a path in a file's name", () => {
    const names = [
      fileNameOf(visit.head),
      fileNameOf(visit.head, "record", "pdf"),
      sheetFileName(visit.head.sheet?.title ?? ""),
    ];
    for (const each of names)
      expect(each).toMatch(/^(burnerside|limits-sheet)-[\p{L}\p{M}\p{N}-]+\.(json|pdf)$/u);
  });

  test("steers no terminal", async () => {
    const [path, broken] = [
      file(`${name}.json`, exportVisit(visit)),
      file(`${name}-broken.json`, exportVisit(visit).replace("natural-gas", "coal")),
    ];
    const ran = [
      await cli(["check", path, broken]),
      await cli(["report", path]),
      await cli(["report", broken]),
    ];
    expect(ran.map(({ status }) => status)).toEqual([1, 0, 1]);
    const lines = ran.flatMap(({ out, err }) => [...out.split("\n"), ...err.split("\n")]);
    expect(lines.length).toBeGreaterThan(4);
    expect(lines.filter((line) => line !== visible(line))).toEqual([]);
  });
});

test("a PDF file of it holds words alone: nothing to click, to run or to open", async () => {
  const fonts = await readFonts();
  const covers = coveredByAll(Object.values(fonts).map(({ bytes }) => bytes));
  const set = (trick: string) => recordPdf(reportOf(hostileVisit(trick), NOW, NOT_LINKED), covers);
  expect(textsIn(set(STEERS_FIRST)).join(" ")).toContain("gpj.exe");
  // The trace's drawing has lines of its own.
  const told = textsIn(set(STEERS_FIRST)).filter((text) => !text.startsWith("<svg "));
  expect(steering(told)).toEqual([]);
  const pdf = await makePdf(set(RUNS_FIRST), fonts);
  // ISO 32000-1, 12.5, 12.6 and 7.11: annotations, actions, files inside.
  expect(Buffer.from(pdf).toString("latin1")).not.toMatch(
    /\/(Annots?|AA|OpenAction|JavaScript|JS|URI|Launch|EmbeddedFiles?|AcroForm|XFA|RichMedia)\b/,
  );
});

describe("ids that every object has a thing of already", () => {
  const plain = reviewVisit();
  const ids = new Map(plain.entries.map(({ id }, place) => [id, OWN_NAMES[place] ?? `other${place}`]));
  const renamed: Visit = JSON.parse(JSON.stringify(plain), (key, value) =>
    key === "id" || key === "target" ? (ids.get(value) ?? value) : value,
  );

  test("there are some, and the bundle is taken", () => {
    expect(renamed.entries.map(({ id }) => id)).toEqual(
      expect.arrayContaining(["constructor", "__proto__", "toString"]),
    );
    expect(importVisit(exportVisit(renamed))).toEqual({ ok: true, visit: renamed });
  });

  test("change nothing of the record, the office's row and the tables but themselves", () => {
    expect(reportOf(renamed, NOW, NOT_LINKED)).toEqual(reportOf(plain, NOW, NOT_LINKED));
    expect(officeRow(renamed)).toEqual(officeRow(plain));
    for (const table of Object.values(TABLES)) {
      const named = table.columns.findIndex(({ name }) => /(^|_)id$/.test(name));
      const without = (visit: Visit) =>
        [...table.rows([visit])].map((row) =>
          row.filter((_, column) => !/(^|_)ids?$/.test(table.columns[column]?.name ?? "")),
        );
      expect(named).toBeGreaterThanOrEqual(0);
      expect(without(renamed)).toEqual(without(plain));
    }
  });

  test.each(OWN_NAMES)("a note that says just %s", (word) => {
    const visit = {
      ...plain,
      entries: plain.entries.map((entry) =>
        entry.body.kind === "note" ? { ...entry, body: { ...entry.body, text: `order ${word}` } } : entry,
      ),
    };
    expect(
      textsIn(reportOf(visit, NOW, NOT_LINKED)).filter((text) => /native code|\[object/.test(text)),
    ).toEqual([]);
    expect(Object.keys(Object.prototype)).toEqual([]);
  });
});
