import type { KeyWord } from "../../device/spotter/words.ts";

/** What each word of a number stands for in a numeral. */
const SIGNS = {
  zero: "0",
  one: "1",
  two: "2",
  three: "3",
  four: "4",
  five: "5",
  six: "6",
  seven: "7",
  eight: "8",
  nine: "9",
  point: ".",
  minus: "-",
} as const satisfies Partial<Record<KeyWord, string>>;

export type FigureWord = keyof typeof SIGNS;

/** A word of a number, as it was heard. Confidence 0 to 1. */
export interface Figure {
  readonly word: FigureWord;
  readonly confidence: number;
}

/** No instrument shows more figures of one value. */
const MOST_FIGURES = 5;

const BEGUN = /^-?(?:0|[1-9]\d*)?(?:\.\d{0,3})?$/;
const WHOLE = /^-?(?:0|[1-9]\d*|(?:0|[1-9]\d*)?\.\d{1,3})$/;

export function isFigureWord(word: KeyWord): word is FigureWord {
  return Object.hasOwn(SIGNS, word);
}

/** "9.2": the figures as a numeral. */
export function numeralOf(figures: readonly Figure[]): string {
  return figures.map(({ word }) => SIGNS[word]).join("");
}

/** The same for the screen, with a true minus sign. */
export function shownFigures(figures: readonly Figure[]): string {
  return numeralOf(figures).replace("-", "−");
}

/** "nine point two". */
export function wordsOf(figures: readonly Figure[]): string {
  return figures.map(({ word }) => word).join(" ");
}

/** Whether a number can go on like this: minus first, one point, three decimals at most, no figure behind a nought that leads. */
export function mayFollow(figures: readonly Figure[], word: FigureWord): boolean {
  const next = numeralOf(figures) + SIGNS[word];
  return BEGUN.test(next) && next.replace(/\D/g, "").length <= MOST_FIGURES;
}

/** Whether it could be all: "nine" and "nine point two", not "nine point". */
export function isWhole(figures: readonly Figure[]): boolean {
  return WHOLE.test(numeralOf(figures));
}

/** The confidence of the least sure of them; 1 where there are none. */
export function leastOf(figures: readonly Figure[]): number {
  return Math.min(1, ...figures.map(({ confidence }) => confidence));
}
