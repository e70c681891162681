import { describe, expect, test } from "vitest";
import type { Fuel } from "../../../src/measure/firing.ts";
import { applianceKey, historiesOf } from "../../../src/record/office/drift.ts";
import { officeRow } from "../../../src/record/office/row.ts";
import { officeVisit } from "../../support/office.ts";
import { sheet } from "../../support/sheets.ts";
import { co, co2, type Said, turn } from "../../support/visits.ts";

interface Visited {
  readonly day: string;
  readonly found: number | null;
  readonly turns?: number;
  readonly left?: number;
  readonly fuel?: Fuel;
  readonly appliance?: string;
}

/** A visit that found high fire at one CO2, turned its screw, and left it at another. */
function visited({ day, found, turns, left, fuel = "natural-gas", appliance = "B-17" }: Visited) {
  const start = Date.parse(`${day}T08:00:00Z`) - Date.parse("2026-11-25T08:00:00Z");
  const script: Said[] = [];
  const at = (seconds: number) => start / 1000 + seconds;
  if (found !== null) script.push([at(60), co2(found, "high"), co(40, "high")]);
  if (turns !== undefined) script.push([at(120), turn(turns, "high")]);
  if (left !== undefined) script.push([at(300), co2(left, "high"), co(45, "high")]);
  const head = { fuel, sheet: sheet(), startedAt: new Date(Date.parse(`${day}T08:00:00Z`)).toISOString() };
  return officeRow(officeVisit(`${appliance} ${day}`, script, { appliance }, head));
}

const YEARS = [
  visited({ day: "2024-10-01", found: 9.9, turns: -0.5, left: 9.2 }),
  visited({ day: "2026-10-03", found: 9.1 }),
  visited({ day: "2025-09-20", found: 9.4, turns: 0.25, left: 9.3 }),
];

describe("the history of an appliance", () => {
  const [history] = historiesOf(YEARS);
  const points = history?.points ?? [];

  test.each([
    ["oldest first", points.map(({ startedAt }) => startedAt.slice(0, 4)), ["2024", "2025", "2026"]],
    [
      "left CO2; what was not turned was left as found",
      points.map(({ left }) => left.high.co2?.value),
      [9.2, 9.3, 9.1],
    ],
    ["found less left before", points.map(({ drift }) => drift.high.co2), [null, 0.2, -0.2]],
    ["of CO, too", points.map(({ drift }) => drift.high.co), [null, -5, -5]],
    [
      "the high screw since before the first visit",
      points.map(({ position }) => position.high),
      [-0.5, -0.25, -0.25],
    ],
    ["the low screw, never touched", points.map(({ position }) => position.low), [0, 0, 0]],
    ["of low fire nothing is known", points.map(({ drift }) => drift.low.co2), [null, null, null]],
  ])("%s", (_, found, expected) => expect(found).toEqual(expected));
});

describe("no drift", () => {
  test.each([
    ["over a change of gas", { day: "2025-01-01", found: 10.2, fuel: "propane" }],
    ["where nothing was read", { day: "2025-01-01", found: null }],
  ] as const)("%s", (_, second) => {
    const [history] = historiesOf([visited({ day: "2024-01-01", found: 9.2 }), visited(second)]);
    expect(history?.points.at(-1)?.drift.high.co2).toBeNull();
  });
});

describe("which visits are of one appliance", () => {
  test.each([
    ["B-17", "b-17", true],
    ["B 17", " B17", true],
    // Full-width letters, as some keyboards write them.
    ["Ｂ１７", "B17", true],
    ["B-17", "B-18", false],
    ["B-17", "B17", false],
  ])("%s and %s: %s", (a, b, same) => {
    expect(applianceKey({ appliance: a }) === applianceKey({ appliance: b })).toBe(same);
  });

  test.each(["", "  ", "\u200b"])("%j is no number", (appliance) => {
    expect(applianceKey({ appliance })).toBeNull();
    expect(historiesOf([visited({ day: "2024-01-01", found: 9.2, appliance })])).toEqual([]);
  });

  test("the one that was visited last comes first", () => {
    const other = visited({ day: "2026-11-01", found: 9, appliance: "C-2" });
    expect(historiesOf([...YEARS, other]).map(({ appliance }) => appliance)).toEqual(["C-2", "B-17"]);
  });
});
