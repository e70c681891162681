import { spokenNumber } from "../measure/show.ts";

/** Stands after the name of a gas, where a number that follows must not run into it. A private-use character. */
export const NAME_END = "\uE000";

const value = (from: number, to: number, by = 1): Map<string, number> =>
  new Map(
    Array.from({ length: (to - from) / by + 1 }, (_, i) => [spokenNumber(from + i * by), from + i * by]),
  );

const ONES = value(1, 9);
const LOW_TEENS = value(10, 12);
const TEENS = value(13, 19);
const TENS = value(20, 90, 10);
const VALUES = new Map([["zero", 0], ...ONES, ...LOW_TEENS, ...TEENS, ...TENS]);

const any = (words: Iterable<string>): string => `(?:${[...words].join("|")})`;
/** A word that a number may begin or end with, as a pattern. */
export const NUMBER_WORD = any([...VALUES.keys(), "hundred", "thousand"]);
const DIGIT = any(["zero", ...ONES.keys()]);
const BELOW_100 = `(?:${any(TENS.keys())}(?:[ -]${any(ONES.keys())}\\b)?|${any([...TEENS.keys(), ...LOW_TEENS.keys()])}|${DIGIT})`;
const BELOW_1000 = `(?:${any(ONES.keys())} hundred(?:(?: and)? ${BELOW_100}\\b)?|${BELOW_100})`;
const CARDINAL = `${BELOW_1000}(?: thousand(?:(?: and)? ${BELOW_1000}\\b)?)?`;
const SPOKEN = new RegExp(
  `(?<name>C O)?(?<end>${NAME_END})?(?<space>\\s*)\\b(?<whole>${CARDINAL})\\b(?<decimals> point ${DIGIT}\\b(?: ${DIGIT}\\b)*)?(?=(?<after>[ -]?[a-z]*))`,
  "giu",
);

/** The parts of a turn: "thirteen sixteenths" can be no thirty. */
const PART = /^ (?:halves|thirds|quarters|[a-z]+ths)$/;

/**
 * Numbers in words that sound like others get their digits behind them ("fifty, five zero"), and what follows the name
 * of a gas is set off by a pause. Two of carbon monoxide is said with its unit: "C O two" is carbon dioxide.
 */
export function saidTwice(text: string): string {
  return text.replace(SPOKEN, (...match) => {
    const { name = "", end, space, whole, decimals = "", after } = match.at(-1) as Groups;
    const lower = whole.toLowerCase();
    const digits = soundsAlike(lower) && !PART.test(after) ? `, ${digitsOf(lower)}${decimals}` : "";
    const bareTwo =
      name !== "" && end !== undefined && lower === "two" && decimals === "" && after !== " parts";
    const unit = bareTwo ? " parts per million" : "";
    return `${name}${end === undefined ? space : ", "}${whole}${decimals}${digits}${unit}`;
  });
}

interface Groups {
  readonly name?: string;
  readonly end?: string;
  readonly space: string;
  readonly whole: string;
  readonly decimals?: string;
  readonly after: string;
}

/** Whether a number ends, before its hundreds, its thousands or its end, in a teen or in tens without ones. */
function soundsAlike(whole: string): boolean {
  const words = whole.split(/[ -]/);
  return words.some((word, i) => {
    if (TEENS.has(word)) return true;
    return TENS.has(word) && word !== "twenty" && !ONES.has(words[i + 1] ?? "");
  });
}

/** "One one five" for one hundred fifteen; whole thousands keep the word. */
function digitsOf(whole: string): string {
  const size = numberOf(whole);
  const thousands = size >= 1000 && size % 1000 === 0;
  const digits = String(thousands ? size / 1000 : size);
  const spelled = [...digits].map((digit) => spokenNumber(Number(digit))).join(" ");
  return thousands ? `${spelled} thousand` : spelled;
}

function numberOf(whole: string): number {
  let thousands = 0;
  let rest = 0;
  for (const word of whole.split(/[ -]/)) {
    if (word === "thousand") [thousands, rest] = [1000 * rest, 0];
    else rest = word === "hundred" ? 100 * rest : rest + (VALUES.get(word) ?? 0);
  }
  return thousands + rest;
}
