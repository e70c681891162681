import demo35 from "../../demo-data/sheets/demo-35.json" with { type: "json" };
import { sheetFrom } from "../../src/record/sheet-file.ts";
import type { Entry, EntryBody, Reading } from "../../src/visit/entry.ts";
import type { Sheet } from "../../src/visit/sheet.ts";
import type { Visit } from "../../src/visit/visit.ts";

const read = sheetFrom(demo35);
if (!read.ok) throw new Error(JSON.stringify(read.problems));

/** The demo's natural gas sheet. */
export const SHEET: Sheet = read.sheet;

const ids = ["a", "b", "c", "d"];

/** A small sound visit: CO2 and CO read, the CO struck, the CO2 replaced. */
export const VISIT: Visit = {
  format: "burnerside-visit/1",
  head: {
    id: "v1",
    title: "Invented",
    startedAt: "2026-11-25T09:00:00.000Z",
    zone: "Europe/Vienna",
    fuel: "natural-gas",
    units: "si",
    sheet: SHEET,
  },
  entries: [
    entry(0, reading("co2", 9.2, "%")),
    entry(1, reading("co", 40, "[ppm]")),
    entry(2, { kind: "strike", target: "b" }),
    entry(3, { kind: "replace", target: "a", with: reading("co2", 9.4, "%") }),
  ],
};

function entry(seq: number, body: EntryBody): Entry {
  const at = `2026-11-25T09:0${seq}:00.000Z`;
  return {
    id: ids[seq] ?? "",
    seq,
    at,
    engine: "typed",
    phrase: "as said",
    said: "as said",
    confidence: 1,
    body,
  };
}

function reading(quantity: Reading["quantity"], value: number, unit: Reading["unit"]): Reading {
  const origin = { value: "said", unit: "assumed", firing: "said", condition: "assumed" } as const;
  return { kind: "reading", quantity, value, unit, firing: "high", condition: null, dial: null, origin };
}
