import { toCardinal } from "n2words/en-US";
import { describe, expect, it } from "vitest";
import { loadLanguage } from "../../src/cli/language.ts";
import { createParser } from "../../src/meaning/parser.ts";
import { shortMeaning } from "../support/short.ts";

const parser = createParser(loadLanguage());
const meaning = (phrase: string) => shortMeaning(parser.parse(phrase));

describe("numbers as an independent speller writes them (npm n2words, English)", () => {
  it("reads every whole number from 0 to 9999 as CO", () => {
    const wrong: string[] = [];
    for (let n = 0; n <= 9999; n += 1) {
      const phrase = `CO ${toCardinal(n)}`;
      // "CO two" may be CO2 cut short: it is asked, not guessed.
      const expected = n === 2 ? "?(co 2 [ppm])" : `co ${n} [ppm]`;
      if (meaning(phrase) !== expected) wrong.push(`${phrase}: ${meaning(phrase)}`);
    }
    expect(wrong).toEqual([]);
  });

  it("reads every decimal from 0.0 to 20.0 as CO2, spoken and typed", () => {
    const wrong: string[] = [];
    for (let tenths = 0; tenths <= 200; tenths += 1) {
      const value = (tenths / 10).toFixed(1);
      const [whole, tenth] = value.split(".");
      const spoken = `CO2 ${toCardinal(Number(whole))} point ${toCardinal(Number(tenth))}`;
      for (const phrase of [spoken, `CO2 ${value}`, `CO2 ${value.replace(".", ",")} %`]) {
        if (meaning(phrase) !== `co2 ${Number(value)} %`) wrong.push(`${phrase}: ${meaning(phrase)}`);
      }
    }
    expect(wrong).toEqual([]);
  });
});

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
