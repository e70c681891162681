import { spokenAmount, spokenTurns } from "../judge/turns.ts";
import { spokenNumber } from "../measure/show.ts";
import { NAME_END, NUMBER_WORD, saidTwice } from "./said-twice.ts";
import { unitsInWords } from "./units-in-words.ts";

/**
 * What a voice is to say for a text, so that no number in it can be mistaken: formulas letter by letter and set off
 * from the number after them ("C O two, nine point two percent", "C O, two hundred"), units by name, decimals digit by
 * digit, and numbers that sound alike (thirteen and thirty … nineteen and ninety) in two ways ("fifteen, one five").
 * No digit and no symbol is left for the voice to make something of. To be applied once: in its result "C O, two" is
 * carbon monoxide.
 */
export function spokenText(text: string): string {
  const plain = text.replace(/(?<=\d)(?=[¼-¾⅐-⅞])/gu, " ").normalize("NFKC");
  const steps = [formulas, ranges, fractions, unitsInWords, numbers, apart, symbols, saidTwice, tidied];
  return steps.reduce((said, step) => step(said), plain);
}

/** Not beside another letter or digit. */
const alone = (pattern: string, flags: string): RegExp =>
  new RegExp(`(?<![\\p{L}\\d])(?:${pattern})(?![\\p{L}\\d]|[.,]\\d)`, flags);

const FORMULAS: readonly (readonly [RegExp, string])[] = [
  [alone("C O 2|CO2", "giu"), `C O two${NAME_END}`],
  [alone("O ?2", "gu"), `O two${NAME_END}`],
  // Apart only in capitals: in a phrase that is repeated as it was heard, "c o" may begin "c o two".
  [alone(`(?:C O|CO|co)(?! two${NAME_END})`, "gu"), `C O${NAME_END}`],
];

function formulas(text: string): string {
  return FORMULAS.reduce((said, [formula, letters]) => said.replace(formula, letters), text);
}

/** "8.7-9.7" is a range, "12:30" a time; a comma in a large number is no pause. */
function ranges(text: string): string {
  return text
    .replace(/(?<=\d)(?:\s?[–—]\s?|[−-]| [−-] )(?=\d)(?!\d+[/⁄])/gu, " to ")
    .replace(/(?<=\d):(?=\d)/g, " ")
    .replace(/(?<![\d.,])\d{1,3}(?:,\d{3})+(?![\d,])/g, (large) => large.replaceAll(",", ""));
}

const WHOLE = String.raw`\d+`;
const TURNS = new RegExp(
  String.raw`(?<![\d.,/])([+−-]?)(?:(${WHOLE})[ -])?(${WHOLE})[/⁄]([1-9]\d*)(?: of a)? turns?\b|([+−-]?)(\d*\.?\d+) turns?\b`,
  "gu",
);
const FRACTION = new RegExp(
  String.raw`(?<![\d/])(?:(${WHOLE})[ -])?(${WHOLE})[/⁄]([1-9]\d*)(?![\d/⁄])`,
  "gu",
);

const PARTS: Readonly<Record<string, readonly [one: string, many: string]>> = {
  2: ["half", "halves"],
  3: ["third", "thirds"],
  4: ["quarter", "quarters"],
  5: ["fifth", "fifths"],
  6: ["sixth", "sixths"],
  8: ["eighth", "eighths"],
  10: ["tenth", "tenths"],
  12: ["twelfth", "twelfths"],
  16: ["sixteenth", "sixteenths"],
  20: ["twentieth", "twentieths"],
};

/** "0.25 turn" and "1/4 turn" become "a quarter turn"; a fraction of something else "one half", "three over seven". */
function fractions(text: string): string {
  return text
    .replace(TURNS, (_, sign, whole = "0", over, under, sign2, decimal) => {
      const size = decimal === undefined ? Number(whole) + Number(over) / Number(under) : Number(decimal);
      const signed = sign || sign2;
      if (!signed) return spokenAmount(size);
      return spokenTurns(signed === "+" ? size : -size);
    })
    .replace(FRACTION, (_, whole, over, under) => {
      const names = PARTS[under];
      const part = names ? `${over} ${names[over === "1" ? 0 : 1]}` : `${over} over ${under}`;
      return whole === undefined ? part : `${whole} and ${part}`;
    });
}

/** Digits become words; a sign before them is said. */
function numbers(text: string): string {
  return text
    .replace(/(?<![\p{L}\d])[−-]\s?(?=\.?\d)/gu, "minus ")
    .replace(/\+\s?(?=\.?\d)/g, "plus ")
    .replace(/(\p{L})?(\d*\.\d+|\d+)(\p{L})?/gu, (_, before = "", number: string, after = "") => {
      const [whole = "", decimals] = number.split(".");
      const tail = decimals === undefined ? "" : ` point ${digitByDigit(decimals)}`;
      return [before, `${integer(whole || "0")}${tail}`, after].filter((word) => word !== "").join(" ");
    });
}

/** A number with leading noughts is a code, and one from a million on would not be remembered: both digit by digit. */
function integer(digits: string): string {
  return digits.length > 6 || /^0\d/.test(digits) ? digitByDigit(digits) : spokenNumber(Number(digits));
}

function digitByDigit(digits: string): string {
  return [...digits].map((digit) => spokenNumber(Number(digit))).join(" ");
}

const RANGE = new RegExp(String.raw`\b(${NUMBER_WORD}) to (?=${NUMBER_WORD}\b)`, "giu");
const EXPECTED = new RegExp(String.raw`\b(expect) (?=${NUMBER_WORD}\b)`, "giu");

/**
 * Numbers that would run into the word before them: "seven to eight" sounds like "seventy eight" or "seven two eight",
 * and the "eight" of "expect eight" is lost.
 */
function apart(text: string): string {
  return text.replace(RANGE, "$1, up to ").replace(EXPECTED, "$1, ");
}

const SYMBOLS: Readonly<Record<string, string>> = {
  "%": "percent",
  "°": "degrees",
  "=": "equals",
  "<": "less than",
  ">": "more than",
  "≤": "at most",
  "≥": "at least",
  "±": "plus or minus",
  "~": "about",
  "≈": "about",
  "&": "and",
  "+": "plus",
  "×": "times",
  "#": "number",
  "@": "at",
  "/": "per",
  "⁄": "per",
};

/** Symbols with a name are said, dashes and brackets become pauses, and what no voice can say goes. */
function symbols(text: string): string {
  return text
    .replace(/\s+[-−–—]+\s+|[–—()[\]]/gu, ", ")
    .replace(/\.{2,}/g, ". ")
    .replaceAll("’", "'")
    .replace(/[^\p{L}\p{M}\s.,?!:;'-]/gu, (symbol) => {
      if (symbol === NAME_END) return symbol;
      const name = SYMBOLS[symbol];
      return name === undefined ? " " : ` ${name} `;
    })
    .replace(/(?<!\p{L})[-']+|[-']+(?!\p{L})/gu, " ");
}

function tidied(text: string): string {
  return text
    .replaceAll(NAME_END, "")
    .replace(/\s+/g, " ")
    .replace(/ (?=[.,?!:;])/g, "")
    .replace(/[,.:;]+(?=[.?!])|(?<=[.,?!:;])[,:;]+/g, "")
    .replace(/^[.,:;\s]+|[,:;\s]+$/g, "");
}
