import { describe, expect, it } from "vitest";
import { sheet } from "../../support/sheets.ts";
import { co, co2, high, low, type Said, turn } from "../../support/visits.ts";
import { codes, test } from "./told.ts";

describe("a reading that moves against the turn by more than 0.1 (repeatability: common practice, no source)", () => {
  const turned = (turns: number, then: number): Said[] => [
    [0, high, co2(9), co(40)],
    [9, turn(turns)],
    [99, co2(then)],
  ];
  test([
    ["up for up", turned(0.5, 9.2), []],
    ["the same for a small turn", turned(0.5, 9), []],
    ["0.1 against: within repeatability", turned(0.5, 8.9), []],
    ["0.2 against: read again", turned(0.5, 8.8), ["moved-wrong-way"]],
    ["0.3 against: sure", turned(0.5, 8.7), ["moved-wrong-way", "stop"]],
    ["0.3 up for a turn down", turned(-0.5, 9.3), ["moved-wrong-way", "stop"]],
    [
      "read too early: not known yet",
      [
        [0, high, co2(9)],
        [9, turn(0.5)],
        [20, co2(8.8)],
      ],
      ["read-too-early"],
    ],
    [
      "the low-fire screw does little to high fire",
      [
        [0, high, co2(9)],
        [9, turn(0.5), turn(-0.1, "low")],
        [99, co2(8.8)],
      ],
      ["moved-wrong-way"],
    ],
    ["the same again: sure", [...turned(0.5, 8.8), [120, co2(8.8)]], ["moved-wrong-way", "stop"]],
    ["gone with a new reading", [...turned(0.5, 8.8), [120, co2(9.2)]], []],
    [
      "of the other firing",
      [
        [0, high, co2(9), co(40)],
        [5, low, co2(8.8)],
        [9, turn(0.1)],
        [99, high, co2(8.8)],
      ],
      [],
    ],
  ]);
  it("a screw with the other thread", () => {
    const other = sheet();
    const reversed = sheet({
      adjusters: { ...other.adjusters, high: { ...other.adjusters.high, co2Rises: "counterclockwise" } },
    });
    expect(codes(turned(0.5, 9.3), reversed)).toEqual(["moved-wrong-way", "stop"]);
    expect(codes(turned(0.5, 8.8), reversed)).toEqual([]);
  });
});

describe("a screw that does nothing", () => {
  const start: Said = [0, high, co2(8)];
  test([
    ["one full turn: read again", [start, [9, turn(1)], [99, co2(8)]], ["no-response"]],
    ["one full turn, moved by 0.1", [start, [9, turn(1)], [99, co2(8.1)]], []],
    ["three quarters: may be too little to see", [start, [9, turn(0.75)], [99, co2(8)]], []],
    [
      "two halves, read between",
      [start, [9, turn(0.5)], [99, co2(8)], [120, turn(0.5)], [190, co2(8)]],
      ["no-response"],
    ],
    ["there and back", [start, [9, turn(1)], [12, turn(-1)], [99, co2(8)]], []],
    [
      "a full turn is more than play can eat",
      [
        [0, high, turn(-0.5)],
        [60, co2(8)],
        [70, turn(1)],
        [200, co2(8)],
      ],
      ["no-response"],
    ],
    ["gone when it moves", [start, [9, turn(1)], [99, co2(8)], [120, turn(1)], [190, co2(8.4)]], []],
  ]);
});
