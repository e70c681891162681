import { describe, expect, it } from "vitest";
import { judged } from "../../support/judged.ts";
import { co2, high, low, note, type Said, strike, turn } from "../../support/visits.ts";
import { proved, test } from "./told.ts";

describe("screws", () => {
  test([
    ["high-fire screw at high fire", [proved, [9, turn(0.25, "high")]], []],
    ["low-fire screw at high fire", [proved, [9, turn(0.1, "low")]], ["wrong-firing"]],
    ["high-fire screw at low fire", [proved, [5, low], [9, turn(0.25, "high")]], ["wrong-firing"]],
    ["firing not known", [[0, turn(0.25, "high")]], []],
    ["low fire after high fire has passed", [proved, [9, low, turn(0.1)]], []],
    ["low fire before any reading", [[0, low, turn(0.1)]], ["low-before-high"]],
    [
      "low fire after high fire failed",
      [
        [0, high, co2(8)],
        [9, low, turn(0.1)],
      ],
      ["low-before-high"],
    ],
    ["both at once", [[0, high, turn(0.1, "low")]], ["wrong-firing", "low-before-high"]],
    ["high step at the largest", [proved, [9, turn(1)]], []],
    ["high step above it", [proved, [9, turn(1.01)]], ["step-too-large"]],
    ["high step back above it", [proved, [9, turn(-2)]], ["step-too-large"]],
    ["low step at the largest", [proved, [9, low, turn(-0.1)]], []],
    ["low step above it", [proved, [9, low, turn(0.125)]], ["step-too-large"]],
    ["told once", [proved, [9, turn(2)], [12, note("oops")]], []],
    ["a struck turn warns no more", [proved, [9, turn(2)], [12, strike]], []],
  ]);
});

describe("several turns without a reading between them", () => {
  const half: Said = [9, turn(0.5)];
  const tooLarge = ["step-too-large"];
  test([
    ["together the largest step", [proved, half, [20, turn(0.5)]], []],
    ["together above it", [proved, half, [20, turn(0.51)]], tooLarge],
    ["in one breath", [proved, [9, turn(0.75), turn(0.5)]], tooLarge],
    ["a third time", [proved, half, [20, turn(0.4)], [30, turn(0.2)]], tooLarge],
    ["there and back", [proved, half, [20, turn(-0.5)], [30, turn(0.75)]], []],
    ["too far, then some of it back", [proved, half, [20, turn(1)], [30, turn(-0.25)]], []],
    ["read between", [proved, half, [80, co2(9.3)], [90, turn(1)]], []],
    ["read too early between", [proved, half, [20, co2(9.3)], [90, turn(1)]], tooLarge],
    ["the other firing read between", [proved, half, [80, low, co2(9)], [150, high, turn(1)]], tooLarge],
    ["one struck", [proved, half, [12, strike], [20, turn(1)]], []],
    ["of each screw one", [proved, [9, turn(1)], [20, low, turn(0.1)]], ["low-before-high"]],
  ]);
  it("says how far", () => {
    expect(judged([proved, half, [20, turn(1)]]).warnings[0]?.text).toBe(
      "Too far without a reading: one and a half turns in all, at most one full turn at a time.",
    );
  });
});
