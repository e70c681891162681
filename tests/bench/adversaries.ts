import { ANY_WORD } from "../../src/meaning/build.ts";
import type { ParserLanguage, WordNetwork } from "../../src/meaning/network.ts";
import { wordsOf } from "../../src/meaning/words.ts";

/** Phrases of one sort that ought to be hard. */
export interface Adversary {
  readonly name: string;
  readonly phrases: readonly string[];
}

/** As long as the goal says. */
const LENGTH = 60;
const SOUPS = 300;

/** Phrases of 60 words made to be hard, the same in each run. `corpus` are phrases to repeat and to glue together. */
export function adversaries(language: ParserLanguage, corpus: readonly string[]): Adversary[] {
  const grammar = unique([language.island, ...language.parts.map(({ network }) => network)].flatMap(wordsIn));
  const numbers = unique(
    language.parts.flatMap(({ name, network }) => (name.startsWith("$numbers.") ? wordsIn(network) : [])),
  );
  const confused = unique(language.confusions.map(({ heard }) => heard.join(" ")));
  const fillers = language.fillers.map(({ words }) => words.join(" "));
  const random = generator(2026);
  return [
    {
      name: "one word of the grammar again and again",
      phrases: unique([...grammar, ...confused]).map(repeated),
    },
    { name: "one phrase of the corpus again and again", phrases: corpus.map(repeated) },
    {
      name: "phrases of the corpus in a row",
      phrases: corpus.map((_, i) => cut([...corpus.slice(i), ...corpus].join(" "))),
    },
    { name: "any words of the grammar", phrases: soups([...grammar, ...confused, ...fillers], random) },
    { name: "words of numbers", phrases: soups(numbers, random) },
    { name: "words taken for others", phrases: soups(confused, random) },
  ];
}

/** The words on the arcs of a network, parts and any-word steps aside. */
function wordsIn({ arcs }: WordNetwork): string[] {
  return arcs.flatMap(({ word }) =>
    word === null || word === ANY_WORD || word.startsWith("$") ? [] : [word],
  );
}

function unique(words: readonly string[]): string[] {
  return [...new Set(words)].sort();
}

function repeated(text: string): string {
  return cut(new Array(LENGTH).fill(text).join(" "));
}

function soups(words: readonly string[], random: () => number): string[] {
  const draw = () => words[Math.floor(random() * words.length)] ?? "";
  return Array.from({ length: SOUPS }, () => cut(Array.from({ length: LENGTH }, draw).join(" ")));
}

/** The first 60 words, as the parser counts them. */
function cut(text: string): string {
  return text.slice(0, wordsOf(text)[LENGTH]?.start);
}

/** Numbers from 0 to below 1 (linear congruence, constants of Numerical Recipes), the same for the same seed. */
function generator(seed: number): () => number {
  let state = seed;
  return () => {
    state = (Math.imul(state, 1_664_525) + 1_013_904_223) >>> 0;
    return state / 2 ** 32;
  };
}
