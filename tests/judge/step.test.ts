import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { chooseStep, type StepTask } from "../../src/judge/step.ts";
import { HAND_TURNS } from "../../src/judge/turns.ts";
import type { Carbon } from "../../src/judge/valve/carbon.ts";
import { readingNoise } from "../../src/judge/valve/noise.ts";
import { priorOf } from "../../src/judge/valve/prior.ts";
import { startBank } from "../../src/judge/valve/start-bank.ts";
import type { Firing } from "../../src/measure/firing.ts";
import type { Adjuster } from "../../src/visit/sheet.ts";

const screw = (changes: Partial<Adjuster> = {}): Adjuster => ({
  co2Rises: "clockwise",
  percentPerTurn: 0.33,
  largestStepTurns: 1,
  ...changes,
});

function step(
  value: number,
  min: number | null,
  max: number | null,
  changes: Partial<Adjuster> = {},
  co: { value: number; max: number } | null = null,
) {
  return chooseStep(taskOf("high", value, { min, max }, screw(changes), co));
}

/** A step from the first reading on, CO read with it. */
function taskOf(
  firing: Firing,
  value: number,
  band: StepTask["band"],
  adjuster: Adjuster,
  co: { value: number; max: number } | null,
): StepTask {
  const rise = band.min !== null && value < band.min ? 1 : -1;
  const bank = startBank(priorOf(firing, adjuster), value, readingNoise(value));
  const carbon: Carbon | null = co && {
    co: co.value,
    co2: value,
    slope: Math.log(4),
    pairs: [],
    max: co.max,
  };
  return { value, rise, band, adjuster, bank, carbon };
}

describe("the turn", () => {
  // One full clockwise turn raises CO2 by about 0.33 %: 10.0 to 10.3 on propane (common practice, no source).
  const cases: [string, ReturnType<typeof step>, number | undefined][] = [
    ["10.0 to 10.3 takes one full turn", step(10, 10.1, 10.6), 1],
    ["far too low: the largest step", step(8, 8.7, 9.7), 1],
    ["far too high: the largest step back", step(11, 8.7, 9.7), -1],
    ["0.3 to go, and nothing past 9.5: three quarters", step(9, 9.1, 9.5), 0.75],
    ["never more than the sheet's largest step", step(8, 8.7, 9.7, { largestStepTurns: 0.5 }), 0.5],
    ["a largest step between the hand's fractions", step(8, 8.7, 9.7, { largestStepTurns: 0.6 }), 0.5],
    ["a largest step below the hand's fractions", step(8, 8.7, 9.7, { largestStepTurns: 0.05 }), 0.05],
    ["the other thread turns the other way", step(8, 8.7, 9.7, { co2Rises: "counterclockwise" }), -1],
    ["a lively screw: a twelfth", step(8.6, 8.7, 9.3, { percentPerTurn: 5 }), 1 / 12],
    ["a screw too lively for the band: none", step(8.8, 8.9, 9.2, { percentPerTurn: 8 }), undefined],
    ["upper limit only: lower", step(10, null, 9.7), -1],
    ["lower limit only: raise", step(8, 8.7, null), 1],
    ["CO far from its limit does not hold it back", step(8, 8.7, 9.7, {}, { value: 20, max: 175 }), 1],
    ["CO near its limit: a smaller step", step(8, 8.7, 9.7, {}, { value: 145, max: 175 }), 0.125],
    ["CO at its limit: none", step(8, 8.7, 9.7, {}, { value: 175, max: 175 }), undefined],
    ["leaner is allowed whatever the CO", step(11, 8.7, 9.7, {}, { value: 900, max: 175 }), -1],
  ];
  it.each(cases)("%s", (_name, found, turns) => expect(found?.turns).toEqual(turns));
});

it("says what to expect to a tenth: 8.3 and one turn, 0.15 to 0.6 higher", () => {
  expect(step(8.3, 8.5, 9.5)?.expect).toEqual({ min: 8.4, max: 8.9 });
});

describe("always", () => {
  const tenth = (min: number, max: number) => fc.integer({ min: min * 10, max: max * 10 }).map((v) => v / 10);
  const task = fc.record({
    value: tenth(6, 13),
    low: tenth(7, 10),
    width: tenth(0.2, 1.5),
    largestStepTurns: fc.constantFrom(0.05, 1 / 12, 0.1, 0.2, 0.25, 0.5, 1, 2),
    percentPerTurn: fc.constantFrom(null, 0.2, 0.33, 1, 3, 8),
    co2Rises: fc.constantFrom<Adjuster["co2Rises"][]>("clockwise", "counterclockwise"),
    co: fc.option(fc.record({ value: fc.integer({ min: 0, max: 400 }), max: fc.constantFrom(150, 175) })),
    firing: fc.constantFrom("high" as const, "low" as const),
  });

  it("a step is one a hand can do, within the largest step, expected past no limit, and towards the band", () => {
    fc.assert(
      fc.property(task, ({ value, low, width, co, firing, ...adjuster }) => {
        const band = { min: low, max: Math.round((low + width) * 10) / 10 };
        fc.pre(value < band.min || value > band.max);
        const found = chooseStep(taskOf(firing, value, band, adjuster, co));
        if (!found) return;
        const size = Math.abs(found.turns);
        expect(size).toBeLessThanOrEqual(adjuster.largestStepTurns);
        expect(HAND_TURNS.some(({ turns }) => turns === size) || size === adjuster.largestStepTurns).toBe(
          true,
        );
        const rises = found.turns > 0 === (adjuster.co2Rises === "clockwise");
        expect(rises).toBe(value < band.min);
        // The smallest step is the only one there is: its worst case may pass the far side.
        const [near, far] = rises ? [value, found.expect.max] : [-value, -found.expect.min];
        const edge = rises ? band.max : -band.min;
        if (size > 1 / 12) expect(far).toBeLessThanOrEqual(edge + 1e-9);
        expect(far).toBeGreaterThanOrEqual(near);
        if (rises && co) expect(co.value).toBeLessThan(co.max);
      }),
    );
  });
});
