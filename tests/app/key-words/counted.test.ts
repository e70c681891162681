import { describe, expect, test } from "vitest";
import { countedOf } from "../../../src/app/key-words/counted.ts";
import type { KeyWord } from "../../../src/device/spotter/words.ts";

/** "yes .7 yes .9": each word with its chance. */
const counted = (text: string) => {
  const parts = text.split(" ").filter((part) => part !== "");
  const words = Array.from({ length: parts.length / 2 }, (_, at) => ({
    word: parts[2 * at] as KeyWord,
    chance: Number(parts[2 * at + 1]),
    at: 500 * at,
  }));
  const got = countedOf(words);
  switch (got.kind) {
    case "figures":
      return got.figures.map(({ word }) => word).join(" ");
    case "word":
      return `${got.heard.word} ${got.heard.chance}`;
    case "nothing":
      return "-";
  }
};

describe("words that count together", () => {
  test.each([
    ["yes .7", "yes 0.7"],
    ["yes .7 yes .9", "yes 0.9"],
    ["yes .9 no .8", "-"],
    ["no .8 yes .9", "-"],
    ["yes .9 stop .7", "stop 0.7"],
    ["again .7 next .8", "-"],
    ["nine .7 point .8 two .9", "nine point two"],
    // A number has one point, and a minus only at its beginning.
    ["nine .7 point .8 point .9 two .7 minus .9", "nine point two"],
    // A number among answers is a number: it is read back.
    ["yes .9 nine .8", "nine"],
    ["", "-"],
  ])("%s: %s", (text, expected) => expect(counted(text)).toBe(expected));
});
