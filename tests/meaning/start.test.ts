import { describe, expect, test } from "vitest";
import { loadLanguage, loadStartLanguage, readLanguageFolder } from "../../src/cli/language.ts";
import { compileLanguage } from "../../src/meaning/compile.ts";
import type { Utterance } from "../../src/meaning/heard.ts";
import { chooseStart, type StartMeaning, startMeaning } from "../../src/meaning/start.ts";

const { piece, utterance, lexicon } = loadStartLanguage();
const NONE: StartMeaning = { sheet: null, fuel: null, go: false, rest: [] };

test.each<[string, Partial<StartMeaning>]>([
  ["sheet two, natural gas, go", { sheet: 2, fuel: "natural-gas", go: true }],
  ["Sheet 2, natural gas. Go!", { sheet: 2, fuel: "natural-gas", go: true }],
  ["limits sheet number twenty three", { sheet: 23 }],
  ["number 7", { sheet: 7 }],
  ["no sheet", { sheet: "none" }],
  ["without a sheet", { sheet: "none" }],
  ["propane", { fuel: "propane" }],
  ["lpg", { fuel: "propane" }],
  ["natural", { fuel: "natural-gas" }],
  ["let's go", { go: true }],
  ["start the visit", { go: true }],
  ["begin", { go: true }],
  ["the new visit on sheet 3 please", { sheet: 3 }],
  ["", {}],
  // Not understood, and told.
  ["sheet", {}],
  ["two", { rest: ["two"] }],
  ["sheet two three", { sheet: 2, rest: ["three"] }],
  ["sheet two, sheet three", { sheet: 3, rest: ["sheet", "three"] }],
  ["natural gas, no, propane", { fuel: "propane", rest: ["no", "propane"] }],
  ["sheet two, sheet two", { sheet: 2 }],
  ["gas", { rest: ["gas"] }],
  ["gopher", { rest: ["gopher"] }],
  ["high fire CO2 nine point two", { rest: ["high", "fire", "co2", "nine", "point", "two"] }],
])("%j", (text, expected) => expect(startMeaning(piece, text)).toEqual({ ...NONE, ...expected }));

test("every number a list can reach", () => {
  for (let number = 1; number < 100; number += 1)
    expect(startMeaning(piece, `sheet ${number} go`)).toEqual({ ...NONE, sheet: number, go: true });
});

describe("of what may have been said", () => {
  const ways = (...said: readonly [string, number][]): Utterance => ({
    engine: "offline",
    hypotheses: said.map(([text, confidence]) => ({
      words: text.split(" ").map((word) => ({ word, confidence, start: 0, end: 0 })),
      confidence,
    })),
    rejected: false,
    audioSeconds: 1,
    computeSeconds: 0,
    sound: null,
  });
  const chosen = (of: Utterance) => {
    const phrase = chooseStart(piece, of);
    return phrase && [phrase.text, Number(phrase.confidence.toFixed(3))];
  };
  test("ways that mean the same add up", () =>
    expect(
      chosen(ways(["sheet ten", 0.4], ["sheet two go", 0.3], ["sheet two start the visit", 0.2])),
    ).toEqual(["sheet two go", 0.5]));
  test("the likeliest meaning is taken", () =>
    expect(chosen(ways(["sheet ten", 0.6], ["sheet two", 0.3]))).toEqual(["sheet ten", 0.6]));
  test("other speech is nothing", () => {
    expect(chooseStart(piece, { ...ways(["go", 0.9]), rejected: true })).toBeNull();
    expect(chosen(ways())).toBeNull();
  });
});

test("the language of a visit is the same without it", () => {
  const { "start.abnf": start, ...others } = readLanguageFolder();
  expect(start).toBeDefined();
  expect(compileLanguage(others)).toEqual(loadLanguage());
});

test("the ear hears what is said, not what is only typed, and needs no more pronunciations than that", () => {
  const heard = new Set(utterance.arcs.flatMap(({ word }) => (word === null ? [] : [word])));
  expect([...heard].sort()).toEqual(Object.keys(lexicon).sort());
  expect(["sheet", "twelve", "propane", "go", "please", "lpg"].map((word) => heard.has(word))).toEqual([
    true,
    true,
    true,
    true,
    false,
    false,
  ]);
});
