import { toCardinal as british } from "n2words/en-GB";
import { toCardinal as american } from "n2words/en-US";
import { describe, expect, it } from "vitest";
import { loadLanguage } from "../../src/cli/language.ts";
import { createParser } from "../../src/meaning/parser.ts";
import { shortMeaning } from "../support/short.ts";

const parser = createParser(loadLanguage());
const meaning = (phrase: string) => shortMeaning(parser.parse(phrase));

/** Every phrase that is not read as expected. */
function misread(cases: Iterable<readonly [phrase: string, expected: string]>): string[] {
  const wrong: string[] = [];
  for (const [phrase, expected] of cases) {
    const found = meaning(phrase);
    if (found !== expected) wrong.push(`${phrase}: ${found}, not ${expected}`);
  }
  return wrong;
}

function* integers(say: (n: number) => readonly [string, string]) {
  for (let n = 0; n <= 9999; n += 1) yield say(n);
}

/** Every tenth from 0.0 to `last`, spelled with "point". */
function* tenths(
  last: number,
  spell: (n: number) => string,
  say: (spoken: string, value: number) => [string, string][],
) {
  for (let n = 0; n <= last * 10; n += 1) {
    yield* say(`${spell(Math.floor(n / 10))} point ${spell(n % 10)}`, n / 10);
  }
}

describe.each([
  ["American", american],
  ["British", british],
])(
  "numbers as an independent speller writes them (npm n2words, %s English)",
  { timeout: 60_000 },
  (_, spell) => {
    it("reads every whole number from 0 to 9999 as CO", () => {
      // "CO two" may be CO2 cut short: it is asked, not guessed.
      const cases = integers((n) => [`CO ${spell(n)}`, n === 2 ? "?(co 2 [ppm])" : `co ${n} [ppm]`]);
      expect(misread(cases)).toEqual([]);
    });

    it("and as a fan speed", () => {
      // Two figures are hundreds, and asked about.
      const expected = (n: number) =>
        n > 0 && n < 100 ? `?(fan-speed ${n * 100} /min)` : `fan-speed ${n} /min`;
      expect(misread(integers((n) => [`fan speed ${spell(n)}`, expected(n)]))).toEqual([]);
    });

    it("reads every decimal from 0.0 to 20.9 as O2, with and without the unit", () => {
      const cases = tenths(20.9, spell, (spoken, value) => [
        [`O2 ${spoken}`, `o2 ${value} %`],
        [`oxygen ${spoken} percent`, `o2 ${value} %`],
      ]);
      expect(misread(cases)).toEqual([]);
    });

    it("reads every decimal up to its 20 % as CO2, spoken and typed", () => {
      const cases = tenths(20, spell, (spoken, value) => [
        [`CO2 ${spoken}`, `co2 ${value} %`],
        [`CO2 ${value.toFixed(1)}`, `co2 ${value} %`],
        [`CO2 ${value.toFixed(1).replace(".", ",")} %`, `co2 ${value} %`],
      ]);
      expect(misread(cases)).toEqual([]);
    });

    it("reads every decimal from 0.0 to 20.9 as a pressure", () => {
      const cases = tenths(20.9, spell, (spoken, value) => [
        [`static ${spoken} inches`, `gas-pressure-inlet ${value} [in_i'H2O] static`],
      ]);
      expect(misread(cases)).toEqual([]);
    });
  },
);

describe("numbers as Unicode CLDR spells them (RBNF English, %spellout-cardinal)", () => {
  it.each([
    ["CO2 zero point five", "co2 0.5 %"],
    ["CO2 eight point nine", "co2 8.9 %"],
    ["CO2 nine point zero five", "co2 9.05 %"],
    ["CO three hundred fifty", "co 350 [ppm]"],
    ["CO three hundred and fifty", "co 350 [ppm]"],
    ["CO one thousand two hundred thirty-four", "co 1234 [ppm]"],
    ["CO one thousand two hundred and thirty-four", "co 1234 [ppm]"],
    ["manifold minus two pascals", "gas-pressure-manifold -2 Pa"],
    ["manifold zero point zero zero four kilopascals", "gas-pressure-manifold 0.004 kPa"],
  ])("%s", (phrase, expected) => expect(meaning(phrase)).toBe(expected));
});

describe("numbers as radio operators say them (FAA Aeronautical Information Manual 4-2-8)", () => {
  it.each([
    ["CO five hundred", "co 500 [ppm]"],
    ["CO four thousand five hundred", "co 4500 [ppm]"],
    ["CO one zero", "co 10 [ppm]"],
    ["CO2 niner point one", "co2 9.1 %"],
    ["CO2 one zero point one", "co2 10.1 %"],
  ])("%s", (phrase, expected) => expect(meaning(phrase)).toBe(expected));
});
