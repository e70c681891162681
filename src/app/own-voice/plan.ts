import { z } from "zod";
import { KEY_WORDS, type KeyWord } from "../../device/spotter/words.ts";

/** What is read in a guided reading (`grammars/en/reading.json`). */
export const ReadingPlan = z.strictObject({
  /** How long nobody speaks at the beginning. */
  noiseSeconds: z.number().min(1).max(30),
  words: z.array(z.enum(KEY_WORDS)).min(1),
  /** How often each of them is said: once at least to learn from, once to hold back. */
  takes: z.int().min(2).max(16),
  /** Ordinary speech without any of the key words. */
  sentences: z.array(z.string().min(1)),
});
export type ReadingPlan = z.infer<typeof ReadingPlan>;

/** One thing that is asked of the person. */
export type Ask =
  | { readonly kind: "noise" }
  | { readonly kind: "word"; readonly word: KeyWord; readonly first: boolean; readonly heldBack: boolean }
  | { readonly kind: "sentence"; readonly text: string };

/** Of so many takes of a word one is held back. */
const HELD_BACK_OF = 4;

/**
 * All that is asked, in order: the room's noise; each word in as many rounds as it has takes, every round in an order of its own, so
 * that no two takes are said in the same breath; the sentences.
 * @param chance a number from 0 to below 1, another each time
 */
export function asksOf({ words, takes, sentences }: ReadingPlan, chance: () => number): readonly Ask[] {
  const held = new Map(words.map((word) => [word, heldBackRounds(takes, chance)]));
  const rounds = Array.from({ length: takes }, (_, round) =>
    shuffled(words, chance).map((word): Ask => {
      const heldBack = held.get(word)?.includes(round) ?? false;
      return { kind: "word", word, first: round === 0, heldBack };
    }),
  );
  return [{ kind: "noise" }, ...rounds.flat(), ...sentences.map((text): Ask => ({ kind: "sentence", text }))];
}

function heldBackRounds(takes: number, chance: () => number): readonly number[] {
  const all = Array.from({ length: takes }, (_, round) => round);
  return shuffled(all, chance).slice(0, Math.max(1, Math.floor(takes / HELD_BACK_OF)));
}

/** In an order that chance gives (Fisher and Yates). */
function shuffled<T>(list: readonly T[], chance: () => number): readonly T[] {
  const left = [...list];
  return list.flatMap(() => left.splice(Math.floor(chance() * left.length), 1));
}

/** How long each ask takes, about, seconds: with the app's own voice, and how soon people answer. */
const SECONDS = { noise: 3, firstWord: 2.8, word: 1.9, sentence: 6 };

/** How long the rest takes, about, seconds. */
export function secondsOf(asks: readonly Ask[], noiseSeconds: number): number {
  return asks.reduce((sum, ask) => sum + secondsOfOne(ask, noiseSeconds), 0);
}

function secondsOfOne(ask: Ask, noiseSeconds: number): number {
  switch (ask.kind) {
    case "noise":
      return SECONDS.noise + noiseSeconds;
    case "word":
      return ask.first ? SECONDS.firstWord : SECONDS.word;
    case "sentence":
      return SECONDS.sentence;
  }
}
