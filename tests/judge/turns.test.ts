import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { spokenAmount, spokenSeconds, spokenTurns } from "../../src/judge/turns.ts";

// How people say turns: common practice, no source.
describe("a turn as a person says it", () => {
  const cases: [number, string][] = [
    [1, "one full turn clockwise"],
    [-0.75, "three quarters of a turn counterclockwise"],
    [0.5, "half a turn clockwise"],
    [-0.25, "a quarter turn counterclockwise"],
    [1 / 3, "a third of a turn clockwise"],
    [0.33, "a third of a turn clockwise"],
    [0.67, "two thirds of a turn clockwise"],
    [1 / 6, "a sixth of a turn clockwise"],
    [0.2, "a fifth of a turn clockwise"],
    [0.125, "an eighth of a turn clockwise"],
    [0.375, "three eighths of a turn clockwise"],
    [0.1, "a tenth of a turn clockwise"],
    [1 / 12, "a twelfth of a turn clockwise"],
    [0.083, "a twelfth of a turn clockwise"],
    [5 / 12, "five twelfths of a turn clockwise"],
    [0.05, "a twentieth of a turn clockwise"],
    [7 / 16, "seven sixteenths of a turn clockwise"],
    [1.25, "one and a quarter turns clockwise"],
    [1.75, "one and three quarters turns clockwise"],
    [-2, "two turns counterclockwise"],
    [2.5, "two and a half turns clockwise"],
    [20 / 360, "twenty degrees clockwise"],
    [0.12, "point one two of a turn clockwise"],
    [0.128, "an eighth of a turn clockwise"],
    [0.13, "point one three of a turn clockwise"],
    [1.12, "one point one two turns clockwise"],
    [0.0001, "next to no turn clockwise"],
  ];
  it.each(cases)("%f", (turns, words) => expect(spokenTurns(turns)).toBe(words));

  it("never begins a part of a turn with zero, and two turns a hundredth apart never sound alike", () => {
    fc.assert(
      fc.property(fc.integer({ min: 1, max: 500 }), (hundredths) => {
        const said = spokenAmount(hundredths / 100);
        expect(said).not.toMatch(/^zero/);
        expect(spokenAmount((hundredths + 1) / 100)).not.toBe(said);
      }),
    );
  });
});

describe("seconds are rounded up", () => {
  const cases: [number, string][] = [
    [0.2, "one second"],
    [1, "one second"],
    [1.01, "two seconds"],
    [34.5, "thirty five seconds"],
  ];
  it.each(cases)("%f", (seconds, words) => expect(spokenSeconds(seconds)).toBe(words));
});
