import { describe, expect, test } from "vitest";
import { type OfficeRow, officeRow } from "../../../src/record/office/row.ts";
import type { Details } from "../../../src/visit/details.ts";
import type { VisitHead } from "../../../src/visit/visit.ts";
import { officeVisit } from "../../support/office.ts";
import { PRESSURE_SHEET } from "../../support/sheets.ts";
import { check, co, co2, command, gas, room, type Said, turn, unsure } from "../../support/visits.ts";

/** High and low fire found rich, turned leaner, and proved; everything closed (the sheet of the tests: 8.7 to 9.7 %, low fire at most 0.3 below, CO up to 175). */
const PROVED: readonly Said[] = [
  [60, co2(9.9, "high"), co(90, "high")],
  [120, turn(-0.5, "high")],
  [240, co2(9.2, "high"), co(40, "high")],
  [400, co2(9.0, "low"), co(30, "low")],
  [600, co2(9.2, "high"), co(41, "high")],
];

const CLOSED: Said = [
  700,
  check("low-fire-cap"),
  check("test-mode-off"),
  check("manometer-removed"),
  check("pressure-test-screw"),
  check("test-port"),
  check("panel"),
  check("leak-check"),
  command("finish-visit"),
];

const rowOf = (script: readonly Said[], details: Partial<Details> = {}, changes: Partial<VisitHead> = {}) =>
  officeRow(officeVisit("a", script, details, changes));

describe("how a visit was left, judged anew", () => {
  test.each<readonly [string, readonly Said[], Partial<VisitHead>, OfficeRow["outcome"]]>([
    ["all proved", PROVED, {}, "proved"],
    ["nothing read", [], {}, "not-proved"],
    ["low fire never read", PROVED.slice(0, 3), {}, "not-proved"],
    ["high fire left out", PROVED.slice(0, 1), {}, "out-of-limits"],
    ["a limit is kept at its edge", [...PROVED, [800, co2(9.7, "high"), co2(9.4, "low")]], {}, "proved"],
    ["and passed just above", [...PROVED, [800, co2(9.8, "high"), co2(9.5, "low")]], {}, "out-of-limits"],
    ["low fire at its edge below high fire", [...PROVED, [800, co2(8.9, "low")]], {}, "proved"],
    ["and just below it", [...PROVED, [800, co2(8.8, "low")]], {}, "out-of-limits"],
    ["CO at its limit", [...PROVED, [800, co(175, "high")]], {}, "proved"],
    ["CO just above", [...PROVED, [800, co(176, "high")]], {}, "out-of-limits"],
    ["a pressure that the sheet asks for was not read", PROVED, { sheet: PRESSURE_SHEET }, "not-proved"],
    ["no sheet", PROVED, { sheet: null }, "not-judged"],
    ["a sheet without this gas", PROVED, { fuel: "propane", sheet: PRESSURE_SHEET }, "not-judged"],
  ])("%s", (_, script, changes, outcome) => {
    expect(rowOf(script, {}, changes).outcome).toBe(outcome);
  });
});

describe("the figures", () => {
  const row = rowOf([...PROVED, CLOSED]);

  test.each([
    ["found high CO2", row.found.high.co2, { value: 9.9, verdict: "fail" }],
    ["found high CO", row.found.high.co, { value: 90, verdict: "pass" }],
    ["found low CO2: not read before the turn", row.found.low.co2, null],
    ["left high CO2", row.left.high.co2, { value: 9.2, verdict: "pass" }],
    ["left high CO, the last", row.left.high.co, { value: 41, verdict: "pass" }],
    ["left low CO2", row.left.low.co2, { value: 9, verdict: "pass" }],
    ["turns of the high screw", row.turns.high, -0.5],
    ["turns of the low screw", row.turns.low, 0],
    ["finished", row.finished, true],
    ["nothing is open", row.open, 0],
  ])("%s", (_, found, expected) => expect(found).toEqual(expected));

  test("tenths of a turn add up", () => {
    const tenths = [1, 2, 3].map((n): Said => [n * 100, turn(0.1, "low")]);
    expect(rowOf(tenths).turns.low).toBe(0.3);
  });

  test("what is open: three closing checks, both firings not read and one thing not understood", () => {
    expect(rowOf([[5, unsure("CO2 ninety two")]]).open).toBe(6);
  });

  test("a danger that stands is open, once", () => {
    const open = (...script: Said[]) => rowOf(script, {}, { sheet: PRESSURE_SHEET }).open;
    expect(open([5, room(80)]) - open()).toBe(1);
    // Its sheet asks for both pressures: that they were not read is no more open then, that one is out of limits is.
    expect(open([5, gas(30, "static", "[in_i'H2O]")])).toBe(open());
  });
});

describe("the dangers that stand", () => {
  test.each([
    ["a room CO that nobody read again", [[5, room(80)]], "ambient-co-evacuate"],
    ["a gas pressure out of its limits", [[5, gas(30, "static", "[in_i'H2O]")]], "gas-pressure-out"],
  ] as const)("%s", (_, script, code) => {
    expect(rowOf(script, {}, { sheet: PRESSURE_SHEET }).warnings).toContain(code);
  });

  test("none where all was proved and closed", () => {
    expect(rowOf([...PROVED, CLOSED]).warnings).toEqual([]);
  });
});

test("the details of the record, spaces around the number taken off", () => {
  const instrument = { name: "Bench analyser", serial: "0417", calibratedOn: "2026-03-02" };
  const details = {
    appliance: " B-17 ",
    place: "Mill house",
    technician: "R. T.",
    licence: "0417",
    firm: "Own",
    instrument,
  };
  const row = rowOf([], details);
  expect(row).toMatchObject({
    appliance: "B-17",
    place: "Mill house",
    technician: "R. T.",
    licence: "0417",
    firm: "Own",
  });
  expect(row).toMatchObject({ instrument: "Bench analyser, 0417", calibratedOn: "2026-03-02" });
});
