import { describe, expect, test } from "vitest";
import { loadLanguage } from "../../src/cli/language.ts";
import { choose } from "../../src/meaning/choose.ts";
import type { Utterance } from "../../src/meaning/heard.ts";
import { createParser } from "../../src/meaning/parser.ts";
import { shortItem } from "../support/short.ts";

const parser = createParser(loadLanguage());

/** `text confidence` lines, best first, as one utterance. */
const utterance = (
  ways: readonly (readonly [text: string, confidence: number])[],
  rejected = false,
): Utterance => ({
  engine: "offline",
  hypotheses: ways.map(([text, confidence]) => ({
    confidence,
    words: text
      .split(" ")
      .filter(Boolean)
      .map((word) => ({ word, confidence, start: 0, end: 1 })),
  })),
  rejected,
  audioSeconds: 1,
  computeSeconds: 0.1,
  sound: null,
});

/** The chosen words, and what would be logged and asked. */
function chosen(heard: Utterance): string {
  const phrase = choose(heard, (text) => parser.parse(text));
  if (!phrase) return "-";
  const { items, unsure } = parser.parse(phrase.text, undefined, phrase.confidences ?? phrase.confidence);
  const asked = unsure.map(({ candidates }) => `?(${candidates.map(shortItem).join(", ")})`);
  return [...items.map(shortItem), ...asked].join("; ");
}

describe("of what may have been said the likeliest meaning is taken", () => {
  test.each([
    ["one clear way is logged", [["co2 nine point two", 0.97]], "co2 9.2 %"],
    ["one unclear way is asked", [["co2 nine point two", 0.7]], "?(co2 9.2 %)"],
    [
      "ways that mean the same add up",
      [
        ["co2 nine point two", 0.5],
        ["co2 is nine point two", 0.45],
      ],
      "co2 9.2 %",
    ],
    [
      "a rival that differs in a number is asked",
      [
        ["co seventeen", 0.6],
        ["co seventy", 0.4],
      ],
      "?(co 17 [ppm])",
    ],
    [
      "two wordings of one meaning outweigh a likelier rival",
      [
        ["co seventy", 0.4],
        ["co seventeen", 0.35],
        ["co is seventeen", 0.24],
      ],
      "?(co 17 [ppm])",
    ],
    [
      "only the number in doubt is asked",
      [
        ["co2 nine point two co forty", 0.6],
        ["co2 nine point two co fourteen", 0.38],
      ],
      "co2 9.2 %; ?(co 40 [ppm])",
    ],
    [
      "an added word that changes the number is a rival",
      [
        ["co2 nine point two", 0.6],
        ["co2 nine point two two", 0.38],
      ],
      "?(co2 9.2 %)",
    ],
    [
      "a way for the log goes before talk",
      [
        ["hand me the key", 0.5],
        ["co2 nine point two", 0.45],
      ],
      "?(co2 9.2 %)",
    ],
    ["a command is taken as it is", [["scratch that", 0.9]], "strike"],
  ] as const)("%s", (_, ways, expected) => expect(chosen(utterance(ways))).toBe(expected));

  test.each([
    ["rejected", utterance([["co2 nine point two", 0.9]], true)],
    ["no words", utterance([["", 0.9]])],
    ["no way", utterance([])],
  ])("nothing where it was not for the log: %s", (_, heard) => expect(chosen(heard)).toBe("-"));
});

describe("a wording that means nothing by itself", () => {
  const chosenText = (heard: Utterance): string | undefined =>
    choose(heard, (text) => parser.parse(text))?.text;
  const heard = utterance([
    ["the high one", 0.99],
    ["one one", 0.001],
  ]);
  test("may answer a question: an unlikely rival for the log does not replace it", () =>
    expect(chosenText(heard)).toBe("the high one"));
  test("but the platform tells the confidence of its first alone", () =>
    expect(
      chosenText({
        ...utterance([
          ["see you to nine", 0.8],
          ["co2 nine point two", 0],
        ]),
        engine: "platform",
      }),
    ).toBe("co2 nine point two"));
});

describe("what else it may have been", () => {
  type Ways = Parameters<typeof utterance>[0];
  const rivals = (ways: Ways) =>
    choose(utterance(ways), (text) => parser.parse(text))?.rivals?.map(
      ({ text, confidence }) => `${text} ${confidence.toFixed(2)}`,
    );
  test.each<[what: string, ways: Ways, expected: string[] | undefined]>([
    ["nothing, for one clear way", [["co forty", 0.97]], undefined],
    [
      "nothing, where all ways mean the same",
      [
        ["co forty", 0.6],
        ["co is forty", 0.3],
      ],
      undefined,
    ],
    [
      "nothing, where the others are talk",
      [
        ["co forty", 0.6],
        ["hand me the key", 0.3],
      ],
      undefined,
    ],
    [
      "each other meaning once, in its likeliest wording, the likeliest first",
      [
        ["co forty", 0.4],
        ["co fourteen", 0.2],
        ["co four", 0.23],
        ["co is fourteen", 0.1],
      ],
      ["co fourteen 0.30", "co four 0.23"],
    ],
    [
      "five at most",
      [
        ["co forty", 0.4],
        ["co ten", 0.1],
        ["co eleven", 0.09],
        ["co twelve", 0.08],
        ["co thirteen", 0.07],
        ["co fourteen", 0.06],
        ["co fifteen", 0.05],
      ],
      ["co ten 0.10", "co eleven 0.09", "co twelve 0.08", "co thirteen 0.07", "co fourteen 0.06"],
    ],
  ])("%s", (_, ways, expected) => expect(rivals(ways)).toEqual(expected));
});

test("the sound and the engine come along", () => {
  const sound = new Float32Array(3);
  const heard = { ...utterance([["co forty", 0.9]]), sound };
  expect(choose(heard, (text) => parser.parse(text))).toMatchObject({
    engine: "offline",
    sound,
    text: "co forty",
  });
});
