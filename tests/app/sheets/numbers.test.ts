import fc from "fast-check";
import { describe, expect, test } from "vitest";
import { textOf, typedNumber, typedTurns, withoutUnit } from "../../../src/app/sheets/numbers.ts";

const shown = (typed: ReturnType<typeof typedNumber>) =>
  typed.kind === "number" ? typed.value : typed.kind === "two-ways" ? typed.values.join(" or ") : typed.kind;

// The decimal sign is a comma on the line or a point on the line (ISO 80000-1:2022, 7.2.2, from memory).
test.each<[string, number | string]>([
  ["8.5", 8.5],
  ["8,5", 8.5],
  [" 8,5 ", 8.5],
  ["150", 150],
  ["0", 0],
  [",5", 0.5],
  [".5", 0.5],
  ["-0.2", -0.2],
  ["−0,2", -0.2],
  ["0,125", 0.125],
  ["0.125", 0.125],
  ["1.1250", 1.125],
  ["8.55", 8.55],
  ["", "empty"],
  ["   ", "empty"],
  ["1,500", "1500 or 1.5000"],
  ["1.500", "1500 or 1.5000"],
  ["12,125", "12125 or 12.1250"],
  ["1,500.5", "unreadable"],
  ["1.500,5", "unreadable"],
  ["8.5 %", "unreadable"],
  ["8.5x", "unreadable"],
  ["8..5", "unreadable"],
  ["8.", "unreadable"],
  ["nine", "unreadable"],
  ["1e3", "unreadable"],
  ["Infinity", "unreadable"],
  ["--1", "unreadable"],
  ["0x10", "unreadable"],
  ["1234567890", "unreadable"],
])("%j is %j", (text, expected) => expect(shown(typedNumber(text))).toBe(expected));

describe("turns, also as parts of one", () => {
  test.each<[string, number | string]>([
    ["1/8", 0.125],
    ["1 1/2", 1.5],
    ["1/10", 0.1],
    ["0,1", 0.1],
    ["1", 1],
    ["", "empty"],
    ["1/0", "unreadable"],
    ["1/", "unreadable"],
    ["/8", "unreadable"],
    ["1/2/3", "unreadable"],
    ["half", "unreadable"],
  ])("%j is %j", (text, expected) => expect(shown(typedTurns(text))).toBe(expected));

  test("no limit is a part of one", () => expect(typedNumber("1/8").kind).toBe("unreadable"));
});

test("every number a sheet can hold is read back from its text as itself", () => {
  fc.assert(
    fc.property(fc.double({ min: -250, max: 20_000, noNaN: true }), (value) => {
      fc.pre(Math.abs(value) > 1e-4);
      expect(typedNumber(textOf(value))).toEqual({ kind: "number", value });
    }),
  );
  expect([textOf(0), textOf(1.125), textOf(undefined), textOf(null)]).toEqual(["0", "1.1250", "", ""]);
});

test.each<[text: string, units: string[], bare: string]>([
  ["8,5 %", ["%"], "8,5"],
  ["8.5%", ["%"], "8.5"],
  ["100 ppm", ["ppm"], "100"],
  ["100 PPM", ["ppm"], "100"],
  ["90 s", ["s", "seconds"], "90"],
  ["90 seconds", ["s", "seconds"], "90"],
  ["7 in wc", ["in. w.c."], "7"],
  ["1/8 turn", ["turn", "turns"], "1/8"],
  ["1 1/2 turns", ["turn", "turns"], "1 1/2"],
  // Another unit is none of this field, and a number alone stays as it is.
  ["100 mbar", ["ppm"], "100 mbar"],
  ["8,5", ["%"], "8,5"],
  ["%", ["%"], "%"],
  ["about 8 %", ["%"], "about 8 %"],
  ["", ["%"], ""],
])("%s without %j is %s", (text, units, bare) => expect(withoutUnit(text, units)).toBe(bare));
