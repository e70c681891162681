import ucum from "@lhncbc/ucum-lhc";
import fc from "fast-check";
import { describe, expect, test } from "vitest";
import { READINGS } from "../../../src/record/export/readings.ts";
import type { Cell, Table } from "../../../src/record/export/table.ts";
import { TURNS } from "../../../src/record/export/turns.ts";
import { foldVisit } from "../../../src/visit/fold.ts";
import type { Visit } from "../../../src/visit/visit.ts";
import { byHand, mend } from "../../support/by-hand.ts";
import { talk } from "../../support/talk.ts";
import { anyVisit } from "../arbitrary.ts";
import { SHEET } from "../visit.ts";

const reference = ucum.UcumLhcUtils.getInstance();

function rowsOf(table: Table, visit: Visit): Record<string, Cell>[] {
  const names = table.columns.map(({ name }) => name);
  return [...table.rows([visit])].map((cells) =>
    Object.fromEntries(names.map((name, place) => [name, cells[place] ?? null])),
  );
}

const pick = (row: Record<string, Cell> | undefined, ...columns: readonly string[]): Cell[] =>
  columns.map((name) => row?.[name] ?? null);
const moment = (row: Record<string, Cell> | undefined, column: string): number =>
  Date.parse(String(row?.[column]));

/** Some columns of every reading of a visit, a line a reading. */
function lines(visit: Visit, ...columns: readonly string[]): string[] {
  return rowsOf(READINGS, visit).map((row) =>
    pick(row, ...columns)
      .map((cell) => cell ?? "-")
      .join(" "),
  );
}

const said = (...phrases: readonly string[]) => talk(phrases, { sheet: SHEET }).visit;

describe("what became of each reading", () => {
  test.each<[string, Visit, string[]]>([
    ["one that stands", said("high fire CO2 nine point two"), ["co2 9.2 standing"]],
    ["struck", said("high fire CO2 nine point two", "scratch that"), ["co2 9.2 struck"]],
    [
      "replaced by voice",
      said("high fire CO2 nine point two", "no, nine point four"),
      ["co2 9.2 replaced", "co2 9.4 standing"],
    ],
    [
      "replaced, then struck",
      said("high fire CO2 nine point two", "no, nine point four", "scratch that"),
      ["co2 9.2 replaced", "co2 9.4 struck"],
    ],
    [
      "mended by hand",
      byHand(["high fire CO2 nine point two, CO forty"], [mend(0, "nine point one")]).visit,
      ["co2 9.2 replaced", "co2 9.1 standing", "co 40 standing"],
    ],
    [
      "not understood, and told by hand what it was, at its own place",
      byHand(["high fire CO2 ninety two", "CO forty"], [mend(0, "CO2 nine point two")]).visit,
      ["co2 9.2 standing", "co 40 standing"],
    ],
    [
      "only confirmed",
      byHand(["high fire CO2 nine point two"], [{ kind: "confirm", of: 0 }]).visit,
      ["co2 9.2 standing"],
    ],
    [
      "struck and put back",
      byHand(
        ["high fire CO2 nine point two"],
        [
          { kind: "strike", of: 0 },
          { kind: "put-back", of: 0 },
        ],
      ).visit,
      ["co2 9.2 standing"],
    ],
  ])("%s", (_what, visit, expected) => expect(lines(visit, "quantity", "value", "status")).toEqual(expected));

  test("what was mended keeps its time, and says when it was mended and by which words", () => {
    const { visit } = byHand(["high fire CO2 nine point two"], [mend(0, "nine point one")]);
    const [first, second] = rowsOf(READINGS, visit);
    expect(first).toMatchObject({
      entry_id: "e0",
      item_id: "e0",
      said: "CO2 nine point two",
      engine: "typed",
    });
    expect(second).toMatchObject({ entry_id: "h0", item_id: "e0", said: "nine point one" });
    expect(pick(second, "time")).toEqual(pick(first, "time"));
    expect(moment(second, "logged")).toBeGreaterThan(moment(second, "time"));
  });
});

test("as found, trial and as left, with verdicts and limits by the visit's own sheet", () => {
  const visit = said(
    "static gas pressure seven inches",
    "high fire CO2 eight point two, CO forty",
    "half turn clockwise",
    "@400 CO2 eight point four",
    "half turn clockwise",
    "@420 CO2 nine point zero",
    "@600 CO2 nine point one, CO one hundred sixty",
    "draft minus five pascals",
  );
  expect(
    lines(visit, "quantity", "value", "as_found", "as_left", "verdict", "limit_min", "limit_max", "unit"),
  ).toEqual([
    "gas-pressure-inlet 7 true true pass 4.5 14 [in_i'H2O]",
    "co2 8.2 true false fail 8.5 9.5 %",
    "co 40 true false pass - 150 [ppm]",
    "co2 8.4 false false fail 8.5 9.5 %",
    "co2 9 false false wait 8.5 9.5 %",
    "co2 9.1 false true pass 8.5 9.5 %",
    "co 160 false true fail - 150 [ppm]",
    "draft -5 true true no-limit - - Pa",
  ]);
});

test("one reading is as found: of two before the first turn the last, of room CO the first, as in the record", () => {
  const visit = said(
    "high fire CO two hundred sixty",
    "CO two hundred fifty",
    "room CO twelve",
    "quarter in",
    "room CO five",
  );
  expect(lines(visit, "value", "as_found", "as_left")).toEqual([
    "260 false false",
    "250 true false",
    "12 true false",
    "5 false true",
  ]);
});

test("what does not stand has no verdict and is neither as found nor as left", () => {
  const visit = said("high fire CO2 eight point two", "scratch that");
  expect(lines(visit, "verdict", "as_found", "as_left", "limit_min")).toEqual(["- - - -"]);
});

test("field by field whether it was said or assumed; times in UTC and at the place", () => {
  const { visit } = talk(["high fire CO2 nine point two", "CO forty"], { zone: "America/St_Johns" });
  const [first, second] = rowsOf(READINGS, visit);
  expect(first).toMatchObject({ firing: "high", firing_from: "said", value_from: "said" });
  expect(second).toMatchObject({
    firing: "high",
    firing_from: "assumed",
    confidence: 0.98,
    zone: "America/St_Johns",
  });
  expect(pick(first, "time", "time_local")).toEqual([
    expect.stringMatching(/Z$/),
    expect.stringMatching(/-03:30$/),
  ]);
  expect(moment(first, "time_local")).toBe(moment(first, "time"));
});

test("every reading that was logged is one row, with its value in one unit of its quantity, as ucum-lhc converts it", () => {
  fc.assert(
    fc.property(anyVisit, (visit) => {
      const rows = rowsOf(READINGS, visit);
      const standing = rows.filter(({ status }) => status === "standing");
      expect(standing.map((row) => pick(row, "item_id", "value"))).toEqual(
        foldVisit(visit).readings.map(({ id, reading }) => [id, reading.value]),
      );
      // Nothing that an entry logged as a reading is missing.
      const own = visit.entries.filter(({ body }) => body.kind === "reading").map(({ id }) => id);
      expect(rows.map(({ entry_id }) => entry_id)).toEqual(expect.arrayContaining(own));
      for (const { value, unit, base_value, base_unit } of rows) {
        const { status, toVal } = reference.convertUnitTo(String(unit), Number(value), String(base_unit));
        expect(status).toBe("succeeded");
        const expected = toVal ?? Number.NaN;
        expect(Math.abs(Number(base_value) - expected)).toBeLessThanOrEqual(1e-9 + Math.abs(expected) * 1e-9);
      }
    }),
    { numRuns: 300 },
  );
});

test("turns: what stands, was struck or mended, and in which firing", () => {
  const visit = said(
    "low fire",
    "quarter turn clockwise",
    "no, counterclockwise",
    "high fire",
    "half in",
    "scratch that",
  );
  const rows = rowsOf(TURNS, visit).map((row) =>
    pick(row, "screw", "turns", "status", "firing", "screw_from"),
  );
  expect(rows).toEqual([
    ["low", 0.25, "replaced", null, "assumed"],
    ["low", -0.25, "standing", "low", "assumed"],
    ["high", 0.5, "struck", null, "assumed"],
  ]);
});
