import { describe, expect, test } from "vitest";
import {
  type Figure,
  type FigureWord,
  isFigureWord,
  isWhole,
  leastOf,
  mayFollow,
  numeralOf,
  shownFigures,
  wordsOf,
} from "../../../src/app/key-words/figures.ts";
import { KEY_WORDS } from "../../../src/device/spotter/words.ts";

const figures = (words: string): Figure[] =>
  words
    .split(" ")
    .filter(Boolean)
    .map((word) => {
      const known = KEY_WORDS.find((one) => one === word);
      if (!known || !isFigureWord(known)) throw new Error(`Expected a word of a number, not ${word}.`);
      return { word: known, confidence: 0.9 };
    });

describe("a number goes on with", () => {
  test.each<[string, FigureWord]>([
    ["", "nine"],
    ["", "zero"],
    ["", "point"],
    ["", "minus"],
    ["minus", "five"],
    ["minus", "point"],
    ["nine", "point"],
    ["nine", "zero"],
    ["nine point", "two"],
    ["zero", "point"],
    ["nine point zero", "zero"],
  ])("%s: %s", (given, next) => expect(mayFollow(figures(given), next)).toBe(true));

  test.each<[string, FigureWord]>([
    ["nine", "minus"],
    ["minus", "minus"],
    ["nine point", "point"],
    ["nine point two", "point"],
    ["zero", "five"],
    ["minus zero", "zero"],
    ["nine nine nine nine nine", "nine"],
    ["nine nine point nine nine nine", "nine"],
    ["nine point nine nine nine", "nine"],
  ])("%s: not %s", (given, next) => expect(mayFollow(figures(given), next)).toBe(false));
});

describe("whole or not", () => {
  test.each([
    "nine",
    "zero",
    "nine point two",
    "four zero",
    "minus five",
    "point five",
    "minus zero point one",
  ])("%s is", (words) => expect(isWhole(figures(words))).toBe(true));
  test.each(["", "minus", "point", "nine point", "minus point"])("“%s” is not", (words) =>
    expect(isWhole(figures(words))).toBe(false),
  );
});

test("shown, said and sure", () => {
  const value = [...figures("minus nine point"), { word: "two", confidence: 0.7 } as const];
  expect([numeralOf(value), shownFigures(value), wordsOf(value)]).toEqual([
    "-9.2",
    "−9.2",
    "minus nine point two",
  ]);
  expect([leastOf(value), leastOf([])]).toEqual([0.7, 1]);
});
