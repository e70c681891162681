import fc from "fast-check";
import { toCardinal } from "n2words/en-US";
import { describe, expect, it } from "vitest";
import { spokenText } from "../../src/answer/spoken.ts";
import { Talkativeness } from "../../src/answer/talk.ts";
import { anyScript } from "../support/arbitrary.ts";
import { PRESSURE_SHEET, sheet } from "../support/sheets.ts";
import { played } from "../support/talk.ts";

const says = (text: string, expected: string) => expect(spokenText(text)).toBe(expected);

describe("formulas are spelled and set off from the number after them", () => {
  it.each([
    ["CO2 9.2 %", "C O two, nine point two percent"],
    ["CO₂ 9.2 %", "C O two, nine point two percent"],
    ["C O 2 nine point two", "C O two, nine point two"],
    ["C O 2 two", "C O two, two"],
    ["O2 4.5 %", "O two, four point five percent"],
    ["C O two hundred forty", "C O, two hundred forty, two four zero"],
    ["CO 200 ppm", "C O, two hundred parts per million"],
    ["Room C O three.", "Room C O, three."],
    ["C O nine?", "C O, nine?"],
    ["Read C O 2.", "Read C O two."],
    ["C O 2: how much?", "C O two: how much?"],
    ["C O to C O 2 ratio zero point zero zero five", "C O to C O two ratio zero point zero zero five"],
    // Two of carbon monoxide, which must not be heard as carbon dioxide.
    ["C O two, good.", "C O, two parts per million, good."],
    ["CO 2 ppm", "C O, two parts per million"],
  ])("%s", says);
});

describe("decimals digit by digit, signs in words", () => {
  it.each([
    ["9.25", "nine point two five"],
    ["0.5", "zero point five"],
    [".5", "zero point five"],
    ["0.50", "zero point five zero"],
    ["1.0", "one point zero"],
    ["−2", "minus two"],
    ["-2.5", "minus two point five"],
    ["+3", "plus three"],
    ["8.7-9.7", "eight point seven, up to nine point seven"],
    ["5 - 3", "five, up to three"],
    ["9.2 -2", "nine point two minus two"],
    ["8.7 – 9.7", "eight point seven, up to nine point seven"],
    ["1,050", "one thousand fifty, one zero five zero"],
    ["1050", "one thousand fifty, one zero five zero"],
    ["007", "zero zero seven"],
    ["1000000", "one zero zero zero zero zero zero"],
    ["9, 2", "nine, two"],
    ["CO2 is 9.", "C O two is nine."],
    ["G20", "G twenty"],
  ])("%s", says);
});

describe("units by name", () => {
  it.each([
    ["1 ppm", "one part per million"],
    ["one ppm", "one part per million"],
    ["21 ppm", "twenty one parts per million"],
    ["7 in. w.c.", "seven inches of water"],
    ["1 inWC", "one inch of water"],
    ["4.5 inH2O", "four point five inches of water"],
    ["20 mbar", "twenty millibar"],
    ["25 Pa", "twenty five pascals"],
    ["2 kPa", "two kilopascals"],
    ["0.3 psi", "zero point three pounds per square inch"],
    ["54 °C", "fifty four degrees Celsius"],
    ["128 °F", "one hundred twenty eight degrees Fahrenheit"],
    ["5200 rpm", "five thousand two hundred revolutions per minute"],
    ["12 µA", "twelve microamps"],
    ["45 s", "forty five seconds"],
    ["1 s", "one second"],
    ["20 L/min", "twenty litres per minute"],
    ["5 gal/min", "five gallons per minute"],
    ["200 m", "two hundred metres"],
    ["1 ft", "one foot"],
    ["2 ft³", "two cubic feet"],
    ["28 kW", "twenty eight kilowatts"],
    ["4mm", "four millimetres"],
    // Words that are no units.
    ["in range", "in range"],
    ["read 9 in range", "read nine in range"],
    ["Pa and ma", "Pa and ma"],
  ])("%s", says);
});

describe("what sounds alike is said in two ways", () => {
  it.each([
    ["13", "thirteen, one three"],
    ["30", "thirty, three zero"],
    ["14", "fourteen, one four"],
    ["40", "forty, four zero"],
    ["15", "fifteen, one five"],
    ["50", "fifty, five zero"],
    ["16", "sixteen, one six"],
    ["60", "sixty, six zero"],
    ["17", "seventeen, one seven"],
    ["70", "seventy, seven zero"],
    ["18", "eighteen, one eight"],
    ["80", "eighty, eight zero"],
    ["19", "nineteen, one nine"],
    ["90", "ninety, nine zero"],
    ["fifteen percent", "fifteen, one five percent"],
    ["fifty %", "fifty, five zero percent"],
    ["19.5", "nineteen point five, one nine point five"],
    ["-15", "minus fifteen, one five"],
    ["115", "one hundred fifteen, one one five"],
    ["two hundred and thirty", "two hundred and thirty, two three zero"],
    ["16000", "sixteen thousand, one six thousand"],
    [
      "Nineteen point five, forty, good.",
      "Nineteen point five, one nine point five, forty, four zero, good.",
    ],
    ["Wait sixty seconds.", "Wait sixty, six zero seconds."],
    // Nothing that sounds alike.
    ["20", "twenty"],
    ["12", "twelve"],
    ["92", "ninety two"],
    ["ninety-two", "ninety-two"],
    ["thirteen sixteenths of a turn", "thirteen sixteenths of a turn"],
    ["nine point two", "nine point two"],
    ["one hundred seventy five", "one hundred seventy five"],
  ])("%s", says);
});

describe("a number does not run into the words before it", () => {
  it.each([
    ["four to fourteen inches of water", "four, up to fourteen, one four inches of water"],
    ["expect eight point five to nine, wait", "expect, eight point five, up to nine, wait"],
    // No range.
    ["C O to C O 2 ratio", "C O to C O two ratio"],
    [
      "from zero point three below high fire to high fire",
      "from zero point three below high fire to high fire",
    ],
    ["Go to low fire.", "Go to low fire."],
    ["what to expect", "what to expect"],
  ])("%s", says);
});

describe("turns are fractions", () => {
  it.each([
    ["0.25 turn", "a quarter turn"],
    ["1/4 turn", "a quarter turn"],
    ["½ turn", "half a turn"],
    ["1 1/2 turns", "one and a half turns"],
    ["1½ turns", "one and a half turns"],
    ["-0.25 turns", "a quarter turn counterclockwise"],
    ["+0.5 turns", "half a turn clockwise"],
    ["1-1/2 turns", "one and a half turns"],
    ["8-10 turns", "eight, up to ten turns"],
    ["0.5 - 1 turn", "zero point five, up to one full turn"],
    ["0.25 turns, then 0.5 turns", "a quarter turn, then half a turn"],
    ["1/2", "one half"],
    ["3/4", "three quarters"],
    ["3/7", "three over seven"],
  ])("%s", says);
});

describe("what is words already stays as it is", () => {
  it.each([
    "Get help.",
    "Read C O.",
    "Low fire next.",
    "High fire screw three quarters of a turn clockwise in all.",
    "One full turn clockwise.",
    "One and a quarter turns.",
    "Test port plugged, leak check done.",
    "Not saved. Look at the screen.",
    "Say again: no such point.",
    "",
  ])("%s", (text) => says(text, text));
});

describe("symbols are named or become a pause", () => {
  it.each([
    ["Note: six words and no more…", "Note: six words and no more."],
    ["low (as found)", "low, as found"],
    ["A & B", "A and B"],
    ["CO ≤ 100 ppm", "C O at most one hundred parts per million"],
    ["say again: “#9”", "say again: number nine"],
    ["read-back — done", "read-back, done"],
    ["the maker's", "the maker's"],
    ["12:30", "twelve thirty, three zero"],
    ["$ € ^ _ | \\ { } 🙂", ""],
  ])("%s", says);
});

// All that a voice may be given: letters, and marks that are pauses.
const SAYABLE = /^[\p{L}\p{M}\s.,?!:;'-]*$/u;
const wordsOf = (text: string) => text.toLowerCase().match(/\p{L}+/gu) ?? [];

describe("always", () => {
  it("no digit and no symbol is left of any text", () => {
    const piece = fc.oneof(
      fc.string({ unit: "grapheme" }),
      fc.constantFrom("C O", "CO2", "two", "fifty", "%", "½", "point", "-", "turns", "ppm", "\uE000"),
      fc.double({ noNaN: true, noDefaultInfinity: true }).map(String),
    );
    fc.assert(
      fc.property(fc.array(piece), fc.constantFrom("", " "), (pieces, between) => {
        expect(spokenText(pieces.join(between))).toMatch(SAYABLE);
      }),
      { numRuns: 500 },
    );
  });

  it("nor of any answer, and of its words none is lost", () => {
    const anySheet = fc.constantFrom(null, sheet(), PRESSURE_SHEET);
    fc.assert(
      fc.property(anyScript, anySheet, fc.constantFrom(...Talkativeness.options), (script, chosen, talk) => {
        for (const { reply } of played(script, { sheet: chosen }, talk)) {
          const said = spokenText(reply.answer);
          expect(said).toMatch(SAYABLE);
          const left = wordsOf(said)[Symbol.iterator]();
          const missing = wordsOf(reply.answer.replaceAll("C O 2", "C O two")).filter((word) => {
            for (const other of left) if (other === word) return false;
            return true;
          });
          expect(missing).toEqual([]);
        }
      }),
      { numRuns: 100 },
    );
  });

  it("a number is said as n2words says it, an npm package of its own", () => {
    fc.assert(
      fc.property(fc.nat(999_999), (whole) => {
        const [first = ""] = spokenText(String(whole)).split(",");
        expect(first).toBe(toCardinal(whole).replaceAll("-", " "));
      }),
    );
  });

  it("and digits after it, where there are any, are its digits", () => {
    fc.assert(
      fc.property(fc.nat(999_999), fc.nat(99), (whole, decimals) => {
        const [, twice] = spokenText(`${whole}.${decimals}`).split(", ");
        if (twice === undefined) return;
        const digits = (text: string) => [...text].map((digit) => toCardinal(Number(digit))).join(" ");
        const thousands = whole >= 1000 && whole % 1000 === 0;
        const head = thousands ? `${digits(String(whole / 1000))} thousand` : digits(String(whole));
        expect(twice).toBe(`${head} point ${digits(String(decimals))}`);
      }),
    );
  });

  it("every teen and its tens are never said alike in one way only", () => {
    for (let n = 13; n <= 19; n++) {
      for (const each of [n, 10 * (n - 10), 100 + n, 1000 * n])
        expect(spokenText(String(each))).toMatch(/, /);
    }
  });
});
