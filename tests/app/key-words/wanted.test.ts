import { describe, expect, test } from "vitest";
import { takeTurn } from "../../../src/answer/turn.ts";
import { isWanted, phraseFor } from "../../../src/app/key-words/wanted.ts";
import { KEY_WORDS } from "../../../src/device/spotter/words.ts";
import { foldVisit } from "../../../src/visit/fold.ts";
import { parser } from "../../support/talk.ts";
import { typed } from "../../support/visits.ts";
import { visitOf } from "../build.ts";

/** The words that do something after this was said. */
function wanted(phrase: string): string {
  let ids = 0;
  const { visit } = takeTurn(parser, visitOf(), typed(phrase), "2026-11-25T08:00:00.000Z", () => `e${ids++}`);
  return KEY_WORDS.filter((word) => isWanted(word, foldVisit(visit))).join(" ");
}

const FIGURES = "again eight five four minus next nine no one point seven six stop three two zero";

describe("what answers", () => {
  test.each<[string, string]>([
    ["CO2 nine point two", "again next stop"],
    ["CO2 ninety two", "again next no stop yes"],
    ["CO2", FIGURES],
    ["nine point two", "again next no stop"],
    ["a quarter turn clockwise", "again high low next no stop"],
    ["a quarter turn", "again next no stop"],
  ])("“%s”: %s", (phrase, words) => expect(wanted(phrase)).toBe(words));
});

test("what a word stands for is understood", () => {
  const texts = KEY_WORDS.flatMap((word) => phraseFor(word) ?? []);
  expect(texts).toEqual(["say again", "high", "low", "what's next", "no", "stop listening", "yes"]);
  const commands = texts.flatMap((text) =>
    parser.parse(text).items.map((item) => (item.kind === "command" ? item.command : item.kind)),
  );
  expect(commands).toEqual(["repeat", "next-step", "no", "stop-listening", "yes"]);
});
