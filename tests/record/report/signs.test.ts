import { readFileSync } from "node:fs";
import { createRequire } from "node:module";
import fc from "fast-check";
import { describe, expect, test } from "vitest";
import { z } from "zod";
import { readFonts } from "../../../src/device/pdf/fonts-node.ts";
import { harmless, NO_SIGN, shortText } from "../../../src/measure/harmless.ts";
import { coverageOf } from "../../../src/record/report/coverage.ts";
import { coveredByAll } from "../../../src/record/report/family.ts";
import { printable } from "../../../src/record/report/printable.ts";

const fonts = Object.values(await readFonts());
const covers = coveredByAll(fonts.map(({ bytes }) => bytes));

test("a font covers what an independent reader (fontkit) finds in it", () => {
  const load = createRequire(createRequire(import.meta.url).resolve("pdfkit"));
  const fontkit: unknown = load("fontkit");
  const create = z.object({ create: z.custom<(file: Buffer) => unknown>() }).parse(fontkit).create;
  const Characters = z.object({ characterSet: z.array(z.int()) });
  for (const { name, bytes } of fonts) {
    const has = coverageOf(bytes);
    const known = new Set(Characters.parse(create(readFileSync(name))).characterSet);
    const wrong = Array.from({ length: 0x20000 }, (_, code) => code).filter(
      (code) => has(code) !== known.has(code),
    );
    expect([known.size > 2000, wrong]).toEqual([true, []]);
  }
});

test("what is no font is refused", () => expect(() => coverageOf(new Uint8Array(64))).toThrow(RangeError));

test("the fonts have every sign that records are written in", () => {
  for (const sign of `${NO_SIGN}↻↺⅛¼⅜½⅝¾⅞●○×−–…“”°³µλ²`)
    expect([sign, covers(sign.codePointAt(0) ?? 0)]).toEqual([sign, true]);
});

describe("signs that the fonts lack are one visible sign a letter", () => {
  test.each([
    ["plain text <b>&amp;</b>", "plain text <b>&amp;</b>"],
    ["Übergröße, čtvrť, Ελλάδα, Киев", "Übergröße, čtvrť, Ελλάδα, Киев"],
    ["boiler 🔥 3", "boiler □ 3"],
    ["family 👨‍👩‍👧 here", "family □ here"],
    ["漢字", "□□"],
    ["שלום", "□□□□"],
    ["e\u0301\u0302", "e\u0301\u0302"],
    [`z${"\u0351".repeat(30)}`, "□"],
    ["a\u200Db", "ab"],
  ])("%s: %s", (text, expected) => expect(printable(text, covers)).toBe(expected));
  test("whatever it is, only what the fonts have is left, and nothing becomes nothing", () =>
    fc.assert(
      fc.property(fc.string({ unit: "binary" }), (text) => {
        const set = printable(harmless(text), covers);
        expect([...set].every((sign) => covers(sign.codePointAt(0) ?? 0))).toBe(true);
        expect(set === "").toBe(harmless(text) === "");
      }),
    ));
});

describe("text from outside is one line that moves nothing around it", () => {
  test.each([
    ["two\r\n lines\tand more ", "two lines and more"],
    ["a\u202Eb", "a□b"],
    ["a\u2066b\u2069", "a□b□"],
    ["\u0000\u0007bell", "□□bell"],
    ["half \uD83D", "half \uFFFD"],
    ["", ""],
  ])("%j: %j", (text, expected) => expect(harmless(text)).toBe(expected));
  test.each([
    ["12345", 5, "12345"],
    ["123456", 5, "1234…"],
    ["👨‍👩‍👧👨‍👩‍👧👨‍👩‍👧", 3, "👨‍👩‍👧👨‍👩‍👧👨‍👩‍👧"],
    ["👨‍👩‍👧👨‍👩‍👧👨‍👩‍👧", 2, "👨‍👩‍👧…"],
  ])("%s in %d letters: %s", (text, most, expected) => expect(shortText(text, most)).toBe(expected));
});
