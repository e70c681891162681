import { expect, it } from "vitest";
import { judgeFound } from "../../../../src/device/ears/offline/confidence.ts";

/** Words as [frames, margin]. */
const rejected = (words: [number, number][], otherFrames = 0): boolean =>
  judgeFound({
    words: words.map(([frames, margin]) => ({ word: "two", start: 0, end: frames / 100, margin })),
    wordFrames: words.reduce((sum, [frames]) => sum + frames, 0),
    otherFrames,
  }).rejected;

it.each<[string, [number, number][], number, boolean]>([
  ["nothing heard", [], 0, true],
  ["a good word", [[30, 0]], 0, false],
  ["a mean just above the middle", [[30, -1.19]], 0, false],
  ["a mean just below the middle", [[30, -1.21]], 0, true],
  [
    "one long word carries short bad ones",
    [
      [100, 0.5],
      [6, -6],
    ],
    0,
    false,
  ],
  [
    "a bad word that lasts was put in",
    [
      [100, 1],
      [12, -4.6],
    ],
    0,
    true,
  ],
  [
    "a word not bad enough",
    [
      [100, 1],
      [12, -4.4],
    ],
    0,
    false,
  ],
  [
    "a bad word too short to tell",
    [
      [100, 1],
      [10, -4.9],
    ],
    0,
    false,
  ],
  [
    "a bad first word is spared",
    [
      [12, -6],
      [100, 1],
    ],
    0,
    false,
  ],
  ["other speech up to a fifth", [[80, 0]], 20, false],
  ["other speech beyond a fifth", [[80, 0]], 21, true],
])("%s", (_, words, otherFrames, expected) => {
  expect(rejected(words, otherFrames)).toBe(expected);
});
