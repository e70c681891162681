import { parse } from "csv-parse/sync";
import ICAL from "ical.js";
import { describe, expect, test } from "vitest";
import { exported } from "../../../src/app/office/exports.ts";
import { importVisits } from "../../../src/record/export/bundles.ts";
import { followUpsOf } from "../../../src/record/office/follow-ups.ts";
import { lineOf } from "../../../src/record/office/kept.ts";
import type { Visit } from "../../../src/visit/visit.ts";
import { officeVisit } from "../../support/office.ts";
import { co2, note } from "../../support/visits.ts";
import { TAKEN_AT, visitOf } from "./kept-visits.ts";

// Read back with independent readers: csv-parse (RFC 4180), ical.js (RFC 5545).

const MANY = Array.from({ length: 230 }, (_, number) =>
  officeVisit(`v${number}`, [[60, co2(9 + (number % 5) / 10, "high"), note("order a gasket")]]),
);

async function made(what: Parameters<typeof exported>[0], visits: readonly Visit[], done: string[] = []) {
  const texts = new Map(visits.map((visit) => [visit.head.id, lineOf(visit)]));
  const sheets: unknown[] = [];
  const file = await exported(
    what,
    visits.map(({ head }) => head.id),
    {
      store: {
        standing: async (ids) => ids.flatMap((id) => texts.get(id) ?? []),
        done: async () => done.map((key) => ({ key, visitId: "", at: TAKEN_AT, by: "M. Office" })),
      },
      visitOf,
      now: () => TAKEN_AT,
      workbookBytes: async (given) => {
        sheets.push(...given);
        return new Uint8Array([1, 2, 3]);
      },
    },
  );
  return { text: await file.text(), size: file.size, sheets };
}

describe("what is handed over of many visits", () => {
  test("readings: the names once, every visit's rows, in the order given", async () => {
    const { text } = await made("readings", MANY);
    const rows: { visit_id: string }[] = parse(text, { bom: true, columns: true });
    expect(rows).toHaveLength(MANY.length);
    const ids = rows.map((row) => row.visit_id);
    expect(ids).toEqual(MANY.map(({ head }) => head.id));
  });

  test("bundles: every line is the visit again", async () => {
    const { text } = await made("bundles", MANY);
    const read = [...importVisits(text)].map(({ read }) => (read.ok ? read.visit : null));
    expect(read).toEqual(MANY);
  });

  test("calendar: every open follow-up, and none that was marked as done", async () => {
    const done = MANY.slice(0, 200).flatMap((visit) => followUpsOf(visit).map(({ key }) => key));
    const { text } = await made("calendar", MANY, done);
    const calendar = new ICAL.Component(ICAL.parse(text));
    const all = ["vevent", "vtodo"].flatMap((kind) => calendar.getAllSubcomponents(kind));
    expect(all).toHaveLength(30);
  });

  test("notes: who has marked what as done, and when; the others are still to be done", async () => {
    const [first, second] = MANY;
    if (!first || !second) throw new Error("Expected visits.");
    const { text } = await made(
      "notes",
      [first, second],
      followUpsOf(first).map(({ key }) => key),
    );
    const rows: Record<string, string>[] = parse(text, { bom: true, columns: true });
    expect(rows.map(({ follow_up, done_on, done_by }) => [follow_up, done_on, done_by])).toEqual([
      ["false", TAKEN_AT.slice(0, 10), "M. Office"],
      ["true", "", ""],
    ]);
  });

  test("workbook: the same columns, by their names", async () => {
    const { sheets } = await made("workbook", MANY.slice(0, 1));
    const header = JSON.stringify(sheets.map((sheet) => (sheet as { data: unknown[] }).data[0]));
    expect(header).toContain("Marked as done on");
    expect(header).toContain("Marked as done by");
    expect(header).toContain("Dangers that stand at the end");
  });

  test("workbook: a row for each visit, and the bytes as they come", async () => {
    const { size, sheets } = await made("workbook", MANY);
    expect(size).toBe(3);
    expect(sheets[0]).toMatchObject({ data: { length: MANY.length + 1 } });
  });

  test("of nothing, nothing but the names", async () => {
    expect((await made("readings", [])).text.split("\r\n")).toHaveLength(2);
    expect((await made("bundles", [])).text).toBe("");
  });
});
