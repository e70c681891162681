import { describe, expect, it } from "vitest";
import type { Firing } from "../../../src/measure/firing.ts";
import { judged } from "../../support/judged.ts";
import { sheet } from "../../support/sheets.ts";
import { co, co2, high, low, type Said, turn } from "../../support/visits.ts";
import { after, type Move } from "./script.ts";

/** Movement warnings and what is advised: "no-response, read". */
function told(firing: Firing, moves: Move[]): string {
  const { warnings, advice } = after(firing, moves).judgement;
  return [...warnings.map(({ code }) => code), advice.action].join(", ");
}

describe("a screw that does nothing", () => {
  const cases: [string, Firing, Move[], string][] = [
    ["three quarters of a turn may be too little to see", "high", [8, [0.75, 8]], "turn"],
    ["a full turn and no change: read again", "high", [8, [1, 8]], "no-response, read"],
    ["still none: one more turn tells", "high", [8, [1, 8], 8], "no-response, turn"],
    ["and none: stop", "high", [8, [1, 8], 8, [1, 8]], "no-response, stop"],
    ["two turns, read once each", "high", [8, [1, 8], [1, 8]], "no-response, stop"],
    ["a step of the last digit is no answer", "high", [8, [1, 8.1], [1, 8], [1, 8.1]], "no-response, stop"],
    ["it moved after all", "high", [8, [1, 8], [1, 8.3]], "turn"],
    ["weak, but it moves", "high", [8, [1, 8.2], [1, 8.3], [1, 8.5]], "turn"],
    ["low fire: a tenth may be too little to see", "low", [8.3, [0.1, 8.3]], "turn"],
    [
      "low fire: four tenths are not",
      "low",
      [8.3, [0.1, 8.3], [0.1, 8.3], [0.1, 8.3], [0.1, 8.3]],
      "no-response, stop",
    ],
    ["in its band nothing has to move", "high", [9, [1, 9]], "go-to"],
  ];
  it.each(cases)("%s", (_name, firing, moves, expected) => expect(told(firing, moves)).toBe(expected));
});

describe("a valve at its end", () => {
  const moves: Move[] = [7.5, [1, 7.8], [1, 8.1], [1, 8.2], [1, 8.2]];
  it("is suspected, read again, and given one more turn", () => {
    expect(told("high", moves)).toBe("no-response, read");
    expect(told("high", [...moves, 8.2])).toBe("no-response, turn");
    expect(told("high", [...moves, 8.2, [1, 8.2]])).toBe("no-response, stop");
  });
  it("the stop is not taken back by one reading's noise, but by a turn that moves", () => {
    const stopped: Move[] = [...moves, 8.2, [1, 8.2]];
    expect(told("high", [...stopped, 8.3])).toBe("no-response, stop");
    expect(told("high", [...stopped, [1, 8.6]])).toBe("turn");
  });
  it("can be turned back", () => {
    expect(told("high", [9.5, [1, 9.8], [1, 10.1], [1, 10.1], [1, 10.1]])).toMatch(/turn$/);
  });
  it("is told from a dead screw", () => {
    const { advice } = after("high", [...moves, 8.2, [1, 8.2]]).judgement;
    expect(advice).toMatchObject({ reason: expect.stringContaining("at its end") });
  });
});

describe("CO2 that moves against the turn", () => {
  const cases: [string, Firing, Move[], string][] = [
    ["clearly: stop", "high", [8, [1, 7.7]], "moved-wrong-way, stop"],
    ["leaner, and it rises: stop", "high", [10, [-1, 10.3]], "moved-wrong-way, stop"],
    ["by 0.2 after a quarter turn: read again", "high", [8, [0.25, 7.8]], "moved-wrong-way, read"],
    ["the same again: another turn tells", "high", [8, [0.25, 7.8], 7.8], "moved-wrong-way, turn"],
    ["leaner is wanted, the same again: stop", "high", [10, [-0.25, 10.2], 10.2], "moved-wrong-way, stop"],
    ["a slip of the reading: gone", "high", [8, [0.25, 7.8], 8.1], "turn"],
    ["a reading that was far off: gone with the next", "high", [8, [1, 7], 8.3], "turn"],
    ["by 0.1: within repeatability", "high", [8, [0.25, 7.9]], "turn"],
    ["low fire", "low", [8.3, [0.1, 8]], "moved-wrong-way, stop"],
  ];
  it.each(cases)("%s", (_name, firing, moves, expected) => expect(told(firing, moves)).toBe(expected));

  it("the stop stays with the same reading again, and goes when the turn is mended", () => {
    expect(told("high", [8, [1, 7.7], 7.7])).toBe("moved-wrong-way, stop");
    expect(told("high", [8, [-1, 7.7]])).toBe("turn");
  });
});

it("many turns without an end are a reason to stop", () => {
  const moves = Array.from({ length: 20 }, (_, i): Move => [0.1, Number((6.5 + 0.09 * i).toFixed(1))]);
  expect(told("low", [6.4, ...moves.slice(0, 19)])).not.toContain("no-progress");
  expect(told("low", [6.4, ...moves])).toContain("no-progress");
});

describe("low fire far off high fire after high-fire turns alone: the wrong screw", () => {
  const script = (lowCo2: number, ...between: Said[]): Said[] => [
    [0, high, co2(8.5), co(30)],
    [10, turn(1)],
    [80, co2(8.9), co(30)],
    ...between,
    [120, low, co2(lowCo2)],
  ];
  const codes = (said: Said[]) => judged(said, { sheet: sheet() }).warnings.map(({ code }) => code);
  const cases: [string, Said[], boolean][] = [
    ["2.0 above", script(10.9), false],
    ["2.1 above", script(11), true],
    ["2.0 below", script(6.9), false],
    ["2.1 below", script(6.8), true],
    ["as found: nothing was turned", script(11).filter(([seconds]) => seconds !== 10), false],
    ["the low-fire screw was turned, too", script(11, [90, turn(0.1, "low")]), false],
  ];
  it.each(cases)("%s", (_name, said, told) => expect(codes(said).includes("wrong-screw")).toBe(told));
});

describe("high fire moved by low-fire turns as far as low fire: the wrong screw", () => {
  const codes = (said: Said[]) => judged(said, { sheet: sheet() }).warnings.map(({ code }) => code);
  const script = (highThen: number, lowThen: number, ...between: Said[]): Said[] => [
    [0, high, co2(9.2), co(30)],
    [60, low, co2(8), co(30)],
    [70, turn(1)],
    ...between,
    [140, co2(lowThen), co(30)],
    [200, high, co2(highThen), co(30)],
  ];
  const cases: [string, Said[], boolean][] = [
    ["0.4 beside 0.4", script(9.6, 8.4), false],
    ["0.5 beside 0.5", script(9.7, 8.5), true],
    ["both fell", script(8.7, 7.5), true],
    ["0.6 beside 0.9", script(9.8, 8.9), true],
    ["0.6 beside 1.0", script(9.8, 9), false],
    ["one up, one down", script(9.7, 7.5), false],
    // The sheet's high-fire screw does 0.33 % a turn, so at most 0.66 of this one.
    ["0.7: more than the high-fire screw does", script(9.9, 8.7), false],
    ["the high-fire screw was turned, too", script(9.7, 8.5, [75, turn(0.1, "high")]), false],
    ["high fire not read again", script(9.7, 8.5).slice(0, -1), false],
    ["no turn between", script(9.7, 8.5).filter(([seconds]) => seconds !== 70), false],
  ];
  it.each(cases)("%s", (_name, said, told) => expect(codes(said).includes("wrong-screw")).toBe(told));
});
