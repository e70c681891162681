import { describe } from "vitest";
import { co2, high, low, note, strike, turn } from "../../support/visits.ts";
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
