import { describe, expect, it } from "vitest";
import { meanOf } from "../../../src/judge/valve/bank.ts";
import type { Firing } from "../../../src/measure/firing.ts";
import { sheet } from "../../support/sheets.ts";
import { after, type Move } from "./script.ts";

const believed = (firing: Firing, moves: readonly Move[], chosen = sheet()) =>
  after(firing, moves, chosen).belief;
const gain = (firing: Firing, moves: Move[], chosen = sheet()) => believed(firing, moves, chosen).gain;

describe("the gain of a screw, % CO2 per turn", () => {
  // One full clockwise turn raises CO2 by about a third of a percent (common practice, no source).
  const cases: [string, Firing, Move[], number, number][] = [
    ["the sheet's figure before anything is turned", "high", [8], 0.329, 0.331],
    ["no figure: the usual two percent at low fire", "low", [8.5], 1.99, 2.01],
    ["one turn as the sheet says", "high", [8, [1, 8.3]], 0.29, 0.36],
    ["stronger: half way after one turn", "high", [8, [1, 8.6]], 0.4, 0.6],
    ["stronger: nearly there after three", "high", [7, [1, 7.6], [1, 8.2], [1, 8.8]], 0.5, 0.62],
    ["weaker: after three", "high", [7.9, [1, 8.1], [1, 8.3], [1, 8.5]], 0.19, 0.26],
    ["turned back and forth, no play", "high", [9, [1, 9.4], [-1, 9], [1, 9.4]], 0.35, 0.45],
    ["low-fire steps of 0.4 %", "low", [8.2, [0.1, 8.6], [0.1, 9]], 3, 4.3],
    ["low-fire steps of 0.1 %", "low", [8.3, [0.1, 8.4], [0.1, 8.5], [0.1, 8.6]], 0.9, 1.5],
    ["small turns tell little", "high", [9, [0.125, 9.1]], 0.3, 0.45],
  ];
  it.each(cases)("%s", (_name, firing, moves, least, most) => {
    const found = gain(firing, moves);
    expect(found).toBeGreaterThan(least);
    expect(found).toBeLessThan(most);
  });

  it("a screw that rises counterclockwise is learned the same way", () => {
    const { high, low } = sheet().adjusters;
    const other = sheet({ adjusters: { high: { ...high, co2Rises: "counterclockwise" }, low } });
    const found = gain("high", [7, [-1, 7.6], [-1, 8.2]], other);
    expect(found).toBeCloseTo(gain("high", [7, [1, 7.6], [1, 8.2]]), 9);
  });

  it("play on a reversal is not taken for a weak gain", () => {
    const reversed = gain("high", [9, [0.5, 9.2], [0.5, 9.4], [-0.25, 9.4]]);
    expect(reversed).toBeGreaterThan(0.25);
  });

  it("readings and turns are counted", () => {
    const { belief } = after("high", [8, [1, 8.3], 8.3, 8.3]);
    expect(belief).toMatchObject({ readings: 3, touches: 1 });
  });
});

it("the advice says what this valve's own gain makes likely", () => {
  const strong = after("high", [7, [1, 7.6], [1, 8.2]]).judgement.advice;
  const weak = after("high", [7.8, [1, 8], [1, 8.2]]).judgement.advice;
  expect(strong).toMatchObject({ action: "turn", adjuster: "high", turns: 1 });
  expect(weak).toMatchObject({ action: "turn", adjuster: "high", turns: 1 });
  if (strong.action !== "turn" || weak.action !== "turn") return;
  expect(strong.expect.min).toBeGreaterThanOrEqual(8.4);
  expect(weak.expect.max).toBeLessThanOrEqual(8.7);
});

describe("a long visit", () => {
  /** A screw of 0.4 % per turn, turned half a turn to and fro. */
  const long = (turns: number): Move[] => [
    8.6,
    ...Array.from({ length: turns }, (_, i): Move => (i % 2 === 0 ? [0.5, 8.8] : [-0.5, 8.6])),
  ];
  it("counts every turn, though only the last ones are replayed", () => {
    for (const turns of [10, 31, 32, 33, 64, 100]) expect(believed("high", long(turns)).touches).toBe(turns);
  });
  it("knows the screw as well as after a short one", () => {
    const [short, longer] = [gain("high", long(20)), gain("high", long(120))];
    expect(Math.abs(longer - short)).toBeLessThan(0.1);
  });
  it("going on is the same as from scratch", () => {
    const chosen = sheet();
    for (let turns = 1; turns < 80; turns += 3)
      expect(believed("high", long(turns), chosen)).toEqual(
        believed("high", long(turns), structuredClone(chosen)),
      );
  });
});

describe("two readings of one setting that contradict each other", () => {
  const level = (moves: Move[]) => meanOf(after("high", moves).belief.bank);
  const cases: [string, Move[], number][] = [
    ["near: their middle", [8, 8.2], 8.1],
    ["far: the later one", [8, 9], 9],
    ["far, after a turn", [8, [1, 9.2], 8.3], 8.3],
  ];
  it.each(cases)("%s", (_name, moves, expected) => expect(level(moves)).toBeCloseTo(expected, 1));
});
