import fc from "fast-check";
import { expect, test } from "vitest";
import { harmless, NO_SIGN, visible } from "../../src/measure/harmless.ts";
import { shownText } from "../../src/measure/text.ts";

// The explicit directional formatting characters of Unicode Standard Annex #9, 2 (from memory).
const DIRECTIONAL = [
  0x061c, 0x200e, 0x200f, 0x202a, 0x202b, 0x202c, 0x202d, 0x202e, 0x2066, 0x2067, 0x2068, 0x2069,
].map((code) => String.fromCodePoint(code));

test.each(DIRECTIONAL.map((sign) => [sign.codePointAt(0)?.toString(16), sign]))(
  "U+%s is shown as a sign, wherever text from outside is",
  (_, sign) => {
    expect(visible(`wo${sign};0`)).toBe(`wo${NO_SIGN};0`);
    expect(harmless(`wo${sign};0`)).toBe(`wo${NO_SIGN};0`);
    expect(shownText(`Note: wo${sign};0`)).toBe(`Note: wo${NO_SIGN};0`);
  },
);

// Unicode Character Database, DerivedCoreProperties.txt, Default_Ignorable_Code_Point (from memory).
test.each([
  ["soft hyphen", "\u00AD"],
  ["combining grapheme joiner", "\u034F"],
  ["Hangul filler", "\u3164"],
  ["word joiner", "\u2060"],
  ["language tag: letters that nobody sees", "\u{E0041}"],
  ["invisible times", "\u2062"],
])("%s is seen, as many signs as it has UTF-16 units", (_, sign) =>
  expect(visible(`a${sign}b`)).toBe(`a${NO_SIGN.repeat(sign.length)}b`),
);

test.each(["क्\u200Dष", "می\u200Cخواهم", "❤\uFE0F", "👨\u200D👩\u200D👧"])(
  "%s is written with what joins letters or chooses their looks",
  (text) => expect(visible(text)).toBe(text),
);

test("plain text stays as it is, accents, other scripts and all", () => {
  for (const text of ["CO2 9.2 %, high fire", "Großküche, Zürich", "שלום", "漢字 🔥"]) {
    expect(visible(text)).toBe(text);
    expect(harmless(text)).toBe(text);
  }
});

test("white space is a space: one for one, or one for all of it", () => {
  expect(visible("a\r\nb\t")).toBe("a  b ");
  expect(harmless("a\r\nb\t")).toBe("a b");
});

test("whatever it is, places in it stay where they are, and nothing that steers is left", () => {
  fc.assert(
    fc.property(fc.string({ unit: "binary" }), fc.constantFrom(...DIRECTIONAL), (text, sign) => {
      const shown = visible(`${text}${sign}${text}`);
      expect(shown).toHaveLength(2 * text.length + 1);
      expect(shown).not.toMatch(/\p{Cc}/u);
      for (const each of DIRECTIONAL) expect(shown).not.toContain(each);
    }),
  );
});
