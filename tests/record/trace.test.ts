import fc from "fast-check";
import { describe, expect, test } from "vitest";
import { type Trace, timeTicks, traceOf, turnSign } from "../../src/record/trace.ts";
import { foldVisit } from "../../src/visit/fold.ts";
import { sheet } from "../support/sheets.ts";
import { talk } from "../support/talk.ts";
import { time } from "../support/visits.ts";

/** The trace after these phrases, a hundred seconds apart unless "@seconds " stands before. */
const trace = (...phrases: string[]): Trace | null =>
  traceOf(foldVisit(talk(phrases, { sheet: sheet(), units: "si" }).visit));

const values = (of: Trace | null, panel: number, line: number) =>
  of?.panels[panel]?.lines[line]?.points.map(({ value }) => value);

describe("what is traced", () => {
  const drawn = trace(
    "high fire CO2 ten point five, CO eighty",
    "half a turn counterclockwise",
    "CO2 ten point two, CO sixty",
    "low fire CO2 nine",
    "CO2 nine point one",
  );

  test("CO2 and CO, each firing a line, oldest first", () => {
    expect(drawn?.panels.map(({ quantity }) => quantity)).toEqual(["co2", "co"]);
    expect(drawn?.panels[0]?.lines.map(({ firing }) => firing)).toEqual(["high", "low"]);
    expect([values(drawn, 0, 0), values(drawn, 0, 1), values(drawn, 1, 0)]).toEqual([
      [10.5, 10.2],
      [9, 9.1],
      [80, 60],
    ]);
  });

  test("every turn, when it was made", () =>
    expect(drawn?.turns).toEqual([{ at: Date.parse(time(200)), adjuster: "high", turns: -0.5 }]));

  test("with the limits of the sheet", () => {
    const { high } = sheet().fuels["natural-gas"] ?? {};
    expect(drawn?.panels[0]?.lines[0]?.limit).toEqual({ min: high?.co2?.min, max: high?.co2?.max });
  });

  test("all of it inside what is shown", () => {
    for (const { lines, from, to, ticks } of drawn?.panels ?? [])
      for (const value of [...ticks, ...lines.flatMap(({ points }) => points.map((point) => point.value))]) {
        expect(value).toBeGreaterThanOrEqual(from);
        expect(value).toBeLessThanOrEqual(to);
      }
  });

  test("what was read too early says so", () => {
    const early = trace(
      "@0 high fire CO2 ten point five, CO forty",
      "@10 half a turn out",
      "@20 CO2 nine point nine",
    );
    expect(early?.panels[0]?.lines[0]?.points.map((point) => point.early)).toEqual([false, true]);
  });

  test("what was struck is not traced", () =>
    expect(
      values(trace("high fire CO2 nine", "CO2 nine point nine", "scratch that", "CO2 nine point one"), 0, 0),
    ).toEqual([9, 9.1]));
});

test.each<[string, string[]]>([
  ["nothing was read", []],
  ["only one moment was read", ["high fire CO2 nine, CO forty"]],
  ["other things were read", ["room CO two", "draft minus two pascals"]],
])("there is no trace where %s", (_, phrases) => expect(trace(...phrases)).toBeNull());

test.each([
  ["H ½ ↺", { adjuster: "high", turns: -0.5 }],
  ["L 1/10 ↻", { adjuster: "low", turns: 0.1 }],
  ["H 1¼ ↻", { adjuster: "high", turns: 1.25 }],
] as const)("%s", (sign, turn) => expect(turnSign({ ...turn, at: 0 })).toBe(sign));

test("times stand at full steps of the clock, few and inside, however long a visit was", () =>
  fc.assert(
    fc.property(
      fc.integer({ min: 0, max: 2e12 }),
      fc.integer({ min: 60_000, max: 60 * 24 * 3600 * 1000 }),
      fc.integer({ min: 2, max: 12 }),
      (from, span, most) => {
        const ticks = timeTicks(from, from + span, most);
        expect(ticks.length).toBeLessThanOrEqual(most + 1);
        for (const at of ticks) {
          expect(at).toBeGreaterThanOrEqual(from);
          expect(at).toBeLessThanOrEqual(from + span);
          expect(at % 60_000).toBe(0);
        }
      },
    ),
  ));
