import fc from "fast-check";
import { describe, expect, test } from "vitest";
import { harmless, isFormula } from "../../../src/record/export/formula.ts";
import { exactWords } from "./exact-words.ts";
import { anyText } from "./hostile.ts";

// Outside sources: OWASP, "CSV Injection" (=, +, -, @, tab, carriage return, line feed, full-width forms; a separator may begin a
// new cell); OWASP ASVS 5.0, requirement 1.2.10 (an apostrophe before them).

describe("what a spreadsheet could run gets an apostrophe before its sign", () => {
  test.each([
    ["=1+1", "'=1+1"],
    ["+1", "'+1"],
    ["-2+3+cmd|' /C calc'!A0", "'-2+3+cmd|' /C calc'!A0"],
    ["@SUM(1+1)*cmd|' /C calc'!A0", "'@SUM(1+1)*cmd|' /C calc'!A0"],
    ["\t=1", "'\t'=1"],
    ["\r=1", "'\r'=1"],
    ["\n=1", "'\n'=1"],
    ["\tgasket", "'\tgasket"],
    ["＝1", "'＝1"],
    ["＋1", "'＋1"],
    ["－1", "'－1"],
    ["＠A1", "'＠A1"],
    [" =1", " '=1"],
    ["\u00A0=1", "\u00A0'=1"],
    ["\u200B=1", "\u200B'=1"],
    ["'=1", "''=1"],
    ["note;=1", "note;'=1"],
    ["note; =1", "note; '=1"],
    ["note|=1", "note|'=1"],
    ["note\n@A1", "note\n'@A1"],
    ["- replaced the gasket", "'- replaced the gasket"],
    ["=1;=2", "'=1;'=2"],
    ["|=1", "|'=1"],
    [";;'=1", ";;''=1"],
  ])("%j is %j", (text, safe) => {
    expect(harmless(text)).toBe(safe);
    expect(isFormula(text)).toBe(true);
    expect(exactWords(safe)).toBe(text);
  });
});

describe("what no spreadsheet runs stays as it is", () => {
  test.each([
    "",
    "gasket",
    "CO2 9.2, then -2 Pa",
    "a - b",
    "a=b",
    "it's",
    "'quoted'",
    "[in_i'H2O]",
    "/min",
    "%",
    "2026-11-25T10:00:00.000+01:00",
    "ring office@example.invalid",
    "note; gasket",
  ])("%j", (text) => expect(harmless(text)).toBe(text));
});

test("any text comes back by the documented rule, and no cell that is cut out of it begins with a sign", () => {
  fc.assert(
    fc.property(anyText, (text) => {
      const safe = harmless(text);
      expect(exactWords(safe)).toBe(text);
      // As a spreadsheet that takes another separator, or minds no quotes, would cut it.
      for (const cell of safe.split(/[;|\t\r\n]/)) expect(cell.trimStart()).not.toMatch(/^[=+\-@＝＋－＠]/);
      expect(safe).not.toMatch(/^[\t\r\n]/);
    }),
    { numRuns: 2000 },
  );
});

test("the time that it takes grows with the text, not with its square", () => {
  // Run for a minute and more if each line end were the beginning of a search to the end.
  for (const text of ["\n", "\t;", " ", "'", "\n'"].map((piece) => piece.repeat(500_000)))
    expect(harmless(text).length).toBeGreaterThanOrEqual(text.length);
});
