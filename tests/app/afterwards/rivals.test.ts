import { describe, expect, test } from "vitest";
import { takeTurn } from "../../../src/answer/turn.ts";
import { candidatesOf, rivalsOf } from "../../../src/app/afterwards/rivals.ts";
import { parser } from "../../support/talk.ts";
import { co, command, head, high, time, turn } from "../../support/visits.ts";

/** What each entry of a phrase may have been, "label confidence" each. */
function rivals(text: string, ...others: [text: string, confidence: number][]): string[][] {
  const phrase = {
    text,
    engine: "offline",
    confidence: 0.97,
    rivals: others.map(([text, confidence]) => ({ text, confidence })),
    sound: null,
  } as const;
  const visit = { format: "burnerside-visit/1", head: head(), entries: [] } as const;
  let ids = 0;
  const { entries } = takeTurn(parser, { ...visit, entries: [] }, phrase, time(0), () => `e${ids++}`);
  return entries.map((entry) =>
    rivalsOf(entry, entries, (words) => parser.parse(words)).map(
      ({ label, confidence }) => `${label} ${confidence?.toFixed(2)}`,
    ),
  );
}

describe("what an entry may have been, from the other wordings of its phrase", () => {
  test("of the same quantity, where it differs", () =>
    expect(rivals("CO2 nine point two, CO forty", ["CO2 nine point two, CO fourteen", 0.2])).toEqual([
      [],
      ["CO 14 ppm 0.20"],
    ]));
  test("one wording may change both", () =>
    expect(rivals("CO2 nine point two, CO forty", ["CO2 nine point nine, CO fourteen", 0.2])).toEqual([
      ["CO2 9.9 % 0.20"],
      ["CO 14 ppm 0.20"],
    ]));
  test("two wordings of one value are one rival, as sure as both; the likeliest comes first", () =>
    expect(rivals("CO forty", ["CO four", 0.15], ["CO fourteen", 0.1], ["CO is fourteen", 0.1])).toEqual([
      ["CO 14 ppm 0.20", "CO 4 ppm 0.15"],
    ]));
  test("another quantity at the same place", () =>
    expect(rivals("CO nine", ["CO2 nine", 0.3])).toEqual([["CO2 9 % 0.30"]]));
  test("what a wording leaves open is no difference", () =>
    expect(rivals("high fire CO2 nine point two", ["CO2 nine point two", 0.3])).toEqual([[]]));
  test("a turn the other way", () =>
    expect(rivals("high screw quarter in", ["high screw quarter out", 0.2])).toEqual([
      ["High fire screw a quarter turn counterclockwise 0.20"],
    ]));
  test("none without other wordings", () => expect(rivals("CO forty")).toEqual([[]]));
});

test("candidates of a question are picks; a command is none", () => {
  const picks = candidatesOf([co(14), turn(0.25, "high"), high, command("next-step")]);
  expect(picks.map(({ confidence }) => confidence)).toEqual([null, null, null]);
  expect(picks[0]?.label).toBe("CO 14 ppm");
});
