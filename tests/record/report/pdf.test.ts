import { readFileSync } from "node:fs";
import { describe, expect, test } from "vitest";
import { readFonts } from "../../../src/device/pdf/fonts-node.ts";
import { makePdf } from "../../../src/device/pdf/make.ts";
import { importVisit } from "../../../src/record/bundle.ts";
import type { Examined } from "../../../src/record/integrity/finding.ts";
import { coveredByAll } from "../../../src/record/report/family.ts";
import type { Report } from "../../../src/record/report/parts.ts";
import { recordPdf } from "../../../src/record/report/pdf.ts";
import { reportOf } from "../../../src/record/report/report.ts";
import type { Visit } from "../../../src/visit/visit.ts";
import { longVisit } from "../../support/long-visit.ts";
import { colour, darkestAtEdge, ink, readPdf } from "../../support/pdf-pages.ts";
import { reviewVisit } from "../../support/review-visit.ts";
import { talk } from "../../support/talk.ts";
import { time } from "../../support/visits.ts";
import { NOT_LINKED } from "./sections.ts";

// The file is read and drawn by pdf.js: another program than the one that made it.

const fonts = await readFonts();
const covers = coveredByAll(Object.values(fonts).map(({ bytes }) => bytes));
const definition = (report: Report) => recordPdf(report, covers);
const record = (visit: Visit) => reportOf(visit, time(9000), NOT_LINKED);
const read = async (report: Report) => readPdf(await makePdf(definition(report), fonts));

function demo(): Visit {
  const bundle = importVisit(readFileSync("demo-data/visits/otterfold-mill.visit.json", "utf8"));
  if (!bundle.ok) throw new Error(JSON.stringify(bundle.problems));
  return bundle.visit;
}

const HOSTILE = `\u202E<script>"&' 漢字 שלום 🔥 ${"W".repeat(120)}`;

/** An invented visit whose every free text is hostile. */
function hostile(): Visit {
  const { visit } = talk([`note ${HOSTILE}`, "high fire CO2 9.1", "half in", "CO2 9.2"], { title: HOSTILE });
  const details = {
    appliance: HOSTILE.slice(0, 80),
    place: HOSTILE.slice(0, 120),
    technician: "🔥",
    licence: HOSTILE.slice(0, 80),
    firm: HOSTILE.slice(20, 100),
    instrument: null,
  };
  const at = time(8000);
  const body = { kind: "details", details } as const;
  const entry = {
    id: "d",
    seq: visit.entries.length,
    at,
    engine: "typed",
    phrase: "",
    said: "",
    confidence: 1,
    body,
  } as const;
  return { ...visit, entries: [...visit.entries, entry] };
}

describe.each<[string, () => Visit, pages: number]>([
  ["the demo visit", demo, 2],
  ["a visit with something of everything", reviewVisit, 2],
  ["an empty visit", () => ({ ...demo(), entries: [] }), 2],
  ["a visit of 2,000 entries", () => longVisit(2000), 6],
  ["a visit of hostile texts", hostile, 2],
])("%s", (_, visit, most) => {
  const report = record(visit());
  const file = read(report);
  test("is few pages, each with its number", async () => {
    const { pages } = await file;
    expect(pages.length).toBeGreaterThanOrEqual(1);
    expect(pages.length).toBeLessThanOrEqual(most);
    pages.forEach(({ text }, i) => {
      expect(text).toContain(`Page ${i + 1} of ${pages.length}`);
    });
  });
  test("has every section with the names of its columns", async () => {
    const all = (await file).pages.map(({ text }) => text).join(" ");
    for (const { name, blocks } of report.sections) {
      expect(all).toContain(name.toUpperCase());
      for (const block of blocks)
        if (block.kind === "table") for (const column of block.columns) expect(all).toContain(column);
    }
  });
  test("is grey, readable, and nothing is cut at an edge", async () => {
    for (const page of (await file).pages) {
      expect(colour(page)).toBe(0);
      expect(ink(page)).toBeGreaterThan(0.005);
      // 5 mm that no printer reaches, and the frame inside of it.
      expect(darkestAtEdge(page, 14)).toBe(0);
      expect(darkestAtEdge(page, 22)).toBeGreaterThan(200);
    }
  });
});

test("what was read, derived, turned and left open is in the demo visit's file", async () => {
  const { pages, title } = await read(record(demo()));
  const all = pages.map(({ text }) => text).join(" ");
  expect(title).toBe("Visit record: Otterfold Mill, boiler 1 (invented)");
  for (const words of [
    "Demo wall-hung 35 kW, natural gas",
    "8.3 % × OUT OF LIMITS",
    "8.7 % In limits firing assumed",
    "calibration date not given",
    "1 turn clockwise 1 09:05:00 1 ↻",
    "L 1/10 ↻",
    "Low-fire screw cap back on done 09:14:00",
    "CO2 7.8 %, low fire, now CO2 7.9 %, low fire",
    "nobody: not reviewed",
    "It is not a certificate.",
  ])
    expect(all).toContain(words);
});

test.each([
  ["us", 612, 792],
  ["si", 595.28, 841.89],
] as const)("paper of a visit in %s units", async (units, width, height) => {
  const visit = demo();
  const [page] = (await read(record({ ...visit, head: { ...visit.head, units } }))).pages;
  expect(page?.width).toBeCloseTo(width, 1);
  expect(page?.height).toBeCloseTo(height, 1);
});

test("signs that the fonts lack are shown as one, and what that means", async () => {
  const { pages, title } = await read(record(hostile()));
  expect(title).toContain(`□<script>"&' □□ □□□□ □ WWW`);
  expect(pages[0]?.text).toContain("□ stands for a sign that the fonts of this file lack");
  expect((await read(record(demo()))).pages[0]?.text).not.toContain("stands for a sign");
});

test("an altered log stands in a box above all else, and in its section; nothing of the kind above another", async () => {
  const visit = demo();
  const examined: Examined = {
    finding: { kind: "altered", misfits: [{ kind: "entry", seq: 3 }] },
    trouble: null,
  };
  const { pages } = await read(reportOf(visit, time(9000), examined));
  const all = pages.map(({ text }) => text).join(" ");
  const notice = "Altered: the log of this visit was changed afterwards. Entry 4 (“CO2 eight point three”)";
  expect(pages[0]?.text.indexOf(notice)).toBeGreaterThan(0);
  expect(pages[0]?.text.indexOf(notice)).toBeLessThan(pages[0]?.text.indexOf("APPLIANCE") ?? 0);
  expect(all).toContain("The log is altered");
  expect(JSON.stringify(definition(record(visit)))).not.toContain('"layout":"notice"');
});

test("the document is plain data: it comes through JSON unchanged", () => {
  const made = definition(record(demo()));
  expect(JSON.parse(JSON.stringify(made))).toEqual(made);
});

test("making a file changes nothing of its document: the second is like the first", async () => {
  const made = definition(record(demo()));
  const before = JSON.stringify(made);
  const [first, second] = [
    await readPdf(await makePdf(made, fonts)),
    await readPdf(await makePdf(made, fonts)),
  ];
  expect(JSON.stringify(made)).toBe(before);
  expect(second.pages.map(({ text }) => text)).toEqual(first.pages.map(({ text }) => text));
});
