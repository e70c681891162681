import { describe, expect, test } from "vitest";
import { historyDrawing } from "../../../src/app/office/history-drawing.ts";
import { driftWords, historySaid, screwStand } from "../../../src/app/office/history-words.ts";
import { historyOf } from "../../../src/record/office/drift.ts";
import { officeRow } from "../../../src/record/office/row.ts";
import { officeVisit } from "../../support/office.ts";
import { co, co2, type Said, turn } from "../../support/visits.ts";

const row = (
  id: string,
  startedAt: string,
  script: readonly Said[],
  fuel: "natural-gas" | "propane" = "natural-gas",
) => officeRow(officeVisit(id, script, { appliance: "B-17" }, { startedAt, fuel }));

const FIRST = row("a", "2024-03-01T09:00:00.000Z", [
  [60, co2(9.8, "high"), co(60, "high")],
  [120, turn(-0.5, "high")],
  [240, co2(9.2, "high"), co(40, "high")],
]);
const SECOND = row("b", "2025-03-01T09:00:00.000Z", [
  [60, co2(9.5, "high"), co(45, "high")],
  [120, turn(-0.25, "high")],
  [240, co2(9.1, "high"), co(40, "high")],
]);
const OTHER_GAS = row("c", "2026-03-01T09:00:00.000Z", [[60, co2(10.2, "high")]], "propane");

describe("the drawing of a history", () => {
  const drawing = historyDrawing(historyOf([FIRST, SECOND, OTHER_GAS]).points);

  test("has all that was found and left, each in its place", () => {
    const [panel] = drawing?.panels ?? [];
    expect(panel?.label).toBe("CO2, %");
    expect(panel?.marks.map(({ stand, value }) => [stand, value])).toEqual([
      ["found", 9.8],
      ["left", 9.2],
      ["found", 9.5],
      ["left", 9.1],
      ["found", 10.2],
      ["left", 10.2],
    ]);
    for (const { value } of panel?.marks ?? []) {
      expect(value).toBeGreaterThanOrEqual(panel?.from ?? Number.NaN);
      expect(value).toBeLessThanOrEqual(panel?.to ?? Number.NaN);
    }
  });

  test("draws drift from left to found, and none from one gas to another", () => {
    const drifts = drawing?.panels.flatMap(({ quantity, drifts }) =>
      drifts.map(({ from, to }) => [quantity, from.value, to.value]),
    );
    expect(drifts).toEqual([
      ["co2", 9.2, 9.5],
      ["co", 40, 45],
    ]);
  });

  test("steps the screws from one visit to the next", () => {
    expect(drawing?.screws.steps.high.map(({ turns }) => turns)).toEqual([-0.5, -0.75, -0.75]);
    expect(drawing?.screws.steps.low.map(({ turns }) => turns)).toEqual([0, 0, 0]);
  });

  test.each([
    ["no visit", []],
    ["one visit", [FIRST]],
    ["two at one time", [FIRST, { ...SECOND, startedAt: FIRST.startedAt }]],
  ])("of %s there is none", (_, rows) => expect(historyDrawing(historyOf(rows).points)).toBeNull());
});

test("a history in words", () => {
  expect(historySaid(historyOf([FIRST, SECOND]))).toBe(
    "2 visits from 1 Mar 2024 to 1 Mar 2025; CO2, high fire, as left: from 9.2 to 9.1 % in 2 visits; " +
      "CO, high fire, as left: from 40 to 40 ppm in 2 visits; high-fire screw: ¾ turn counterclockwise; low-fire screw: as at first.",
  );
});

test.each([
  [{ co2: 0.3, co: -5 }, "CO2 up 0.3 %, CO down 5 ppm"],
  [{ co2: 0, co: null }, "CO2 unchanged"],
  [{ co2: null, co: 12 }, "CO up 12 ppm"],
  [{ co2: null, co: null }, ""],
])("a drift of %j is %j", (change, words) => expect(driftWords(change)).toBe(words));

test.each([
  [0, "as at first"],
  [-0.25, "¼ turn counterclockwise"],
])("a screw at %f is %j", (turns, words) => expect(screwStand(turns)).toBe(words));
