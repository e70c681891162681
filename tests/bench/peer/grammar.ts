import type { Lexicon, WordNetwork } from "../../../src/meaning/network.ts";
import type { Graph, Transition } from "./sphinx.ts";

/** PocketSphinx's transitions carry whole logarithms to this base (psRecognizer.cpp: logmath_init(1.0001, 0, 0)). */
const LOG_BASE = Math.log(1.0001);

/** The marks of words that are not the grammar's: a phone on its own, as speech that is not for the log. */
const PHONE_MARK = "+";

/** The phones of the acoustic model that a voice makes; SIL and the noises are the search's own. */
const PHONES =
  "AA AE AH AO AW AY B CH D DH EH ER EY F G HH IH IY JH K L M N NG OW OY P R S SH T TH UH UW V W Y Z ZH".split(
    " ",
  );

/** A pronunciation list as the decoder takes it: `word`, then `word(2)`, `word(3)` for its alternates. */
export type Pronunciations = readonly (readonly [word: string, phones: string])[];

/** Only the words that the network uses, each with all its pronunciations. */
export function pronunciations(network: WordNetwork, lexicon: Lexicon): Pronunciations {
  const words = new Set(network.arcs.flatMap((arc) => (arc.word === null ? [] : [arc.word])));
  return [...words].sort().flatMap((word) => {
    const ways = lexicon[word] ?? [];
    if (ways.length === 0) throw new Error(`The lexicon has no pronunciation of "${word}".`);
    return ways.map((phones, index) => [index === 0 ? word : `${word}(${index + 1})`, phones] as const);
  });
}

/** Every phone as a word of its own. */
export const PHONE_WORDS: Pronunciations = PHONES.map((phone) => [PHONE_MARK + phone, phone]);

export function isPhone(word: string): boolean {
  return word.startsWith(PHONE_MARK);
}

/**
 * The language's network as the search takes it. `-lw` does not touch a graph that comes in this way
 * (psRecognizer.cpp builds it with weight 1), so the weight is put on here.
 * @param weight how many times the grammar's own probabilities count against the acoustic scores
 * @param garbage logarithm (nats) of the cost of one phone of other speech before the first island, or null for none
 */
export function searchGraph(network: WordNetwork, weight: number, garbage: number | null): Graph {
  const transitions: Transition[] = network.arcs.map(({ from, to, word, logp }) => ({
    from,
    to,
    word: word ?? "",
    logp: whole(logp * weight),
  }));
  if (garbage !== null) transitions.push(...phoneLoop(network.start, garbage));
  return { start: network.start, end: network.end, states: network.states, transitions };
}

/** Any phone after any other: what the speech sounded like, whatever was said. */
export function phoneGraph(cost: number): Graph {
  const end = { from: 0, to: 1, word: "", logp: 0 };
  return { start: 0, end: 1, states: 2, transitions: [...phoneLoop(0, cost), end] };
}

function phoneLoop(state: number, cost: number): Transition[] {
  return PHONE_WORDS.map(([word]) => ({ from: state, to: state, word, logp: whole(cost) }));
}

function whole(nats: number): number {
  return Math.min(0, Math.round(nats / LOG_BASE));
}
