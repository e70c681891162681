import { describe, expect, test } from "vitest";
import { isPersons } from "../../../src/app/key-words/own-voice.ts";
import type { KeyWord } from "../../../src/device/spotter/words.ts";

/** The app asks "CO2, nine? Yes?", and falls silent at 10 s. */
const WORDS = new Set(["c", "o", "two", "nine", "yes"]);
const heard = (word: KeyWord, seconds: number, speaking = false) =>
  isPersons(word, 1000 * seconds, { speaking, endedAt: 10_000, words: WORDS });

describe("over the app's voice", () => {
  test.each<KeyWord>(["stop", "again", "no"])("%s is the person's", (word) =>
    expect(heard(word, 9, true)).toBe(true),
  );
  test.each<KeyWord>(["yes", "nine", "two", "four", "point", "minus", "high", "low", "next", "mark"])(
    "%s is not",
    (word) => expect(heard(word, 9, true)).toBe(false),
  );
});

describe("right behind it", () => {
  test.each<[KeyWord, number]>([
    ["four", 10.5],
    ["no", 10.1],
    ["nine", 11.4],
    ["yes", 11.4],
  ])("%s at %f s is the person's", (word, seconds) => expect(heard(word, seconds)).toBe(true));
  test.each<[KeyWord, number]>([
    ["four", 10.3],
    ["nine", 11.2],
    ["yes", 11.2],
    ["two", 10.6],
  ])("%s at %f s may be its own", (word, seconds) => expect(heard(word, seconds)).toBe(false));
});
