import fc from "fast-check";
import { toCardinal } from "n2words/en-US";
import { describe, expect, it } from "vitest";
import type { QuantityId } from "../../src/measure/quantity.ts";
import { shownNumber, shownValue, spokenNumber, spokenReading } from "../../src/measure/show.ts";
import type { Unit } from "../../src/measure/unit.ts";

/**
 * n2words 4.0.0 writes American English without "and"; a voice needs no hyphens. It reads decimals as one number ("point
 * eleven") where CLDR, taken here, says them digit by digit: each digit is asked of it alone.
 */
const reference = (value: number) => {
  const [whole = "", decimals = ""] = String(value).split(".");
  const digits = [...decimals].map((digit) => ` ${toCardinal(digit)}`).join("");
  return `${toCardinal(whole)}${digits && ` point${digits}`}`.replaceAll("-", " ");
};

describe("spokenNumber against n2words", () => {
  it("every whole number from 0 to 9999", () => {
    const wrong = Array.from({ length: 10_000 }, (_, n) => n).filter((n) => spokenNumber(n) !== reference(n));
    expect(wrong).toEqual([]);
  });
  it("every tenth from -30.0 to 30.0 and every hundredth from 0.00 to 30.00", () => {
    const tenths = Array.from({ length: 601 }, (_, n) => (n - 300) / 10);
    const hundredths = Array.from({ length: 3001 }, (_, n) => n / 100);
    expect([...tenths, ...hundredths].filter((n) => spokenNumber(n) !== reference(n))).toEqual([]);
  });
  it("any number of up to six figures below a million", () => {
    const number = fc
      .tuple(fc.integer({ min: -999_999, max: 999_999 }), fc.integer({ min: 0, max: 4 }))
      .map(([digits, decimals]) => Number((digits / 10 ** decimals).toFixed(decimals)));
    fc.assert(
      fc.property(number, (n) => {
        expect(spokenNumber(n)).toBe(reference(n));
      }),
    );
  });
});

describe("Unicode CLDR RBNF, English %spellout-cardinal (hyphens dropped)", () => {
  it.each([
    [0, "zero"],
    [0.5, "zero point five"],
    [8.9, "eight point nine"],
    [9.05, "nine point zero five"],
    [0.004, "zero point zero zero four"],
    [21, "twenty one"],
    [100, "one hundred"],
    [350, "three hundred fifty"],
    [1234, "one thousand two hundred thirty four"],
    [-2, "minus two"],
  ])("%s is %s", (value, words) => expect(spokenNumber(value)).toBe(words));
});

describe("spokenNumber at the edges", () => {
  it.each([
    [-0, "zero"],
    [0.1 + 0.2, "zero point three"],
    [999_999, "nine hundred ninety nine thousand nine hundred ninety nine"],
    [1_000_000, "1000000"],
    [-2_500_000, "−2500000"],
    [1e-7, "1e−7"],
  ])("%s is %s", (value, words) => expect(spokenNumber(value)).toBe(words));
});

describe("shownNumber: six figures, shortest form, a true minus", () => {
  it.each([
    [9.2, "9.2"],
    [9.0, "9"],
    [0, "0"],
    [-0, "0"],
    [-2, "−2"],
    [-0.25, "−0.25"],
    [0.1 + 0.2, "0.3"],
    [8.333333333, "8.33333"],
    [20_000, "20000"],
    [1_234_567, "1234570"],
    [99.99996, "100"],
  ])("%s is %s", (value, text) => expect(shownNumber(value)).toBe(text));
  it("reads back as the number, to six figures", () => {
    fc.assert(
      fc.property(fc.double({ min: -1e5, max: 1e5, noNaN: true }), (value) => {
        const back = Number(shownNumber(value).replaceAll("−", "-"));
        expect(Math.abs(back - value)).toBeLessThanOrEqual(Math.abs(value) * 5e-6);
      }),
    );
  });
});

describe("values with their units", () => {
  it.each<[number, Unit | null, string]>([
    [9.2, "%", "9.2 %"],
    [-12, "Pa", "−12 Pa"],
    [7.5, "[in_i'H2O]", "7.5 in. w.c."],
    [7.5, null, "7.5"],
  ])("%s %s is shown %s", (value, unit, text) => expect(shownValue(value, unit)).toBe(text));
  it.each<[QuantityId, number, Unit | null, string]>([
    ["co2", 9.2, "%", "C O 2 nine point two"],
    ["co", 175, "[ppm]", "C O one hundred seventy five"],
    ["gas-pressure-inlet", 18.5, "mbar", "inlet gas pressure eighteen point five millibar"],
    ["flue-temperature", 52, "Cel", "flue temperature fifty two degrees Celsius"],
    ["draft", -12, "Pa", "draft minus twelve pascals"],
    ["draft", -12, null, "draft minus twelve"],
    ["gas-pressure-inlet", 1, "[in_i'H2O]", "inlet gas pressure one inch of water"],
    ["gas-pressure-inlet", 1, "mbar", "inlet gas pressure one millibar"],
    ["draft", -1, "Pa", "draft minus one pascal"],
    ["flue-temperature", 1, "Cel", "flue temperature one degree Celsius"],
    ["altitude", 1, "[ft_i]", "altitude one foot"],
    ["water-flow", 1, "L/min", "water flow one litre per minute"],
  ])("%s %s %s is spoken %s", (id, value, unit, text) => expect(spokenReading(id, value, unit)).toBe(text));
});
