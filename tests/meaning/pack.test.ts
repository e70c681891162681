import { describe, expect, test } from "vitest";
import { loadLanguage } from "../../src/cli/language.ts";
import { type FoldedLanguage, foldLanguage } from "../../src/meaning/folded.ts";
import type { Graph, Step } from "../../src/meaning/graph.ts";
import { packLanguage } from "../../src/meaning/pack.ts";
import { numberAt, writeNumbers } from "../../src/meaning/packed.ts";
import { createParser, parserOf } from "../../src/meaning/parser.ts";
import { unpackLanguage } from "../../src/meaning/unpack.ts";
import { corpora, corpusLines } from "../support/corpus.ts";

const language = loadLanguage();
// As it reaches the app: as text.
const packed = JSON.parse(JSON.stringify(packLanguage(foldLanguage(language))));

/** A graph without references: its states in the order met, their targets by number. */
function flat({ start, vocabulary }: Graph): unknown {
  const met = [start];
  const numbers = new Map([[start, 0]]);
  const step = ({ to, cost, row }: Step) => {
    const known = numbers.get(to) ?? met.push(to) - 1;
    numbers.set(to, known);
    return `${known} ${cost} ${row}`;
  };
  const states: unknown[] = [];
  for (const { bits, steps, open, exits } of met) {
    const over = [...steps].map(([symbol, same]) => `${symbol}: ${same.map(step).join(", ")}`);
    states.push({ bits, over, open: open.map(step), exits });
  }
  return { states, vocabulary };
}

const flatLanguage = ({ symbols, rows, parts, island, ...lists }: FoldedLanguage) => ({
  names: symbols.names(),
  rows: Array.from({ length: rows.size }, (_, row) => rows.tags(row)),
  parts: parts.map(({ symbol, graph }) => [symbol, flat(graph)]),
  island: flat(island),
  ...lists,
});

test("a language that was packed and unpacked is the same in every state, step and row", () => {
  expect(flatLanguage(unpackLanguage(packed))).toEqual(flatLanguage(foldLanguage(language)));
});

test("packed again it is the same text", () => {
  expect(packLanguage(unpackLanguage(packed))).toEqual(packed);
});

test("the parser of the packed language reads every phrase of the corpus alike, by the same path", () => {
  const parsers = [createParser(language), parserOf(unpackLanguage(packed))] as const;
  const phrases = corpora().flatMap((file) => corpusLines(file).map(({ phrase }) => phrase));
  expect(phrases.length).toBeGreaterThan(2000);
  const [plain, unpacked] = parsers.map((parser) =>
    phrases.map((phrase) => [parser.parse(phrase), parser.trace(phrase)]),
  );
  expect(unpacked).toEqual(plain);
});

describe("numbers as characters", () => {
  const read = (text: string) => Array.from(text, (_, at) => numberAt(text, at));
  test.each([[[]], [[0]], [[0, 1, 95, 96, 127, 128, 2047, 2048]], [[55_263]]])("%j", (numbers) => {
    expect(read(writeNumbers(numbers))).toEqual(numbers);
  });
  test.each([-1, 0.5, 55_264, Number.NaN])("%d cannot be written", (number) => {
    expect(() => writeNumbers([number])).toThrow(/expected a whole number from 0 to 55263, found/);
  });
  test("every number that can be written is a character by itself, in UTF-8 too", () => {
    const all = Array.from({ length: 55_264 }, (_, number) => number);
    const text = writeNumbers(all);
    expect(new TextDecoder().decode(new TextEncoder().encode(text))).toBe(text);
  });
});
