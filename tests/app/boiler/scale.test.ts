import fc from "fast-check";
import { describe, expect, test } from "vitest";
import { type Scale, scaleOf, scaleSaid } from "../../../src/app/boiler/scale.ts";
import { ticksOf } from "../../../src/measure/ticks.ts";
import { foldVisit } from "../../../src/visit/fold.ts";
import { sheet } from "../../support/sheets.ts";
import { talk } from "../../support/talk.ts";
import { time } from "../../support/visits.ts";

/** The scale after these phrases, a hundred seconds apart. */
function scale(...phrases: string[]): Scale | null {
  const { turns, visit, at } = talk(phrases, { sheet: sheet(), units: "si" });
  const reply = turns.at(-1)?.reply;
  if (!reply) throw new Error("Expected a phrase.");
  return scaleOf(foldVisit(visit), reply, time(at));
}

const values = (of: Scale | null) => of?.points.map(({ value }) => value);

describe("what the scale shows", () => {
  test("the band and the reading, in the reading's unit", () => {
    const { high } = sheet().fuels["natural-gas"] ?? {};
    const of = scale("high fire CO2 nine point two");
    expect(of?.band).toEqual({ min: high?.co2?.min, max: high?.co2?.max });
    expect([of?.label, values(of), of?.landing]).toEqual(["CO2, %", [9.2], null]);
  });

  test("where the advised turn should land", () => {
    const of = scale("high fire CO2 ten point five, CO forty");
    expect(of?.label).toBe("CO2, %");
    expect(of?.landing?.max).toBeLessThan(10.5);
  });

  test("at most four readings before it, of the same firing, the oldest first", () =>
    expect(
      values(
        scale(
          "low fire CO2 eight point nine",
          ...[
            "nine",
            "nine point one",
            "nine point two",
            "nine point three",
            "nine point two",
            "nine point one",
          ].map((value) => `high fire CO2 ${value}`),
        ),
      ),
    ).toEqual([9.1, 9.2, 9.3, 9.2, 9.1]));

  test("a limit upwards alone begins at nothing", () =>
    expect(scale("high fire CO forty")).toMatchObject({ from: 0, band: { min: null } }));

  test("what was read too early says so", () => {
    const of = scale(
      "@0 high fire CO2 ten point five, CO forty",
      "@10 half a turn counterclockwise",
      "@20 CO2 nine point eight",
    );
    expect(of?.points.at(-1)?.verdict).toBe("wait");
  });

  test.each([
    ["nothing was read", "high fire"],
    ["no limit is known", "fan fifty four hundred"],
    ["only talk", "note trap is dry"],
  ])("none where %s", (_, phrase) => expect(scale(phrase)).toBeNull());
});

test("it is told in words, too", () =>
  expect(
    scaleSaid({ ...(scale("high fire CO2 nine point two") as Scale), landing: { min: 9, max: 9.4 } }),
  ).toMatch(/^CO2, %: 9\.2; least 8\.\d; most 9\.\d; the turn should land from 9 to 9\.4$/));

describe("the numbers on a scale", () => {
  test.each([
    [8, 10, [8, 8.5, 9, 9.5, 10]],
    [0, 170, [0, 50, 100, 150]],
    [-0.3, 0.31, [-0.3, -0.2, -0.1, 0, 0.1, 0.2, 0.3]],
  ])("from %d to %d", (from, to, expected) => expect(ticksOf(from, to)).toEqual(expected));

  test("are few, evenly spaced and inside", () =>
    fc.assert(
      fc.property(
        fc.double({ min: -100, max: 20000, noNaN: true }),
        fc.double({ min: 0.1, max: 20000, noNaN: true }),
        (from, span) => {
          const ticks = ticksOf(from, from + span);
          expect(ticks.length).toBeGreaterThanOrEqual(2);
          expect(ticks.length).toBeLessThanOrEqual(8);
          for (const tick of ticks) {
            expect(tick).toBeGreaterThanOrEqual(from - span * 1e-6);
            expect(tick).toBeLessThanOrEqual(from + span * (1 + 1e-6));
          }
        },
      ),
    ));
});
