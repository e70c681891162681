import type { EarLanguage } from "../../../meaning/network.ts";
import { compact } from "./compact.ts";

/** A word said in one way, between two nodes: a run of phones in the graph's list of positions. */
export interface WordArc {
  readonly from: number;
  readonly to: number;
  readonly word: string;
  /** Weight of the grammar: natural logarithm, at most 0. */
  readonly logp: number;
  /** Its phones are positions `first` to `first + length - 1`. */
  readonly first: number;
  readonly length: number;
}

/** The language's network down to its phones: what the search walks. */
export interface PhoneGraph {
  readonly nodes: number;
  readonly start: number;
  readonly end: number;
  readonly arcs: readonly WordArc[];
  /** Indices into `arcs` of those that leave each node. */
  readonly leaving: readonly (readonly number[])[];
  /** Steps without a word from each node. */
  readonly empty: readonly (readonly { readonly to: number; readonly logp: number }[])[];
  /** The phone at each position, as the acoustic model numbers them. */
  readonly phones: Uint8Array;
}

/** @throws where a word has no pronunciation, or one with a phone that the model does not know */
export function phoneGraph(language: EarLanguage, phones: readonly string[]): PhoneGraph {
  const network = compact(language.utterance);
  const number = new Map(phones.map((phone, index) => [phone, index]));
  const arcs: WordArc[] = [];
  const positions: number[] = [];
  const leaving = Array.from({ length: network.states }, (): number[] => []);
  const empty = Array.from({ length: network.states }, (): { to: number; logp: number }[] => []);
  for (const { from, to, word, logp } of network.arcs) {
    if (word === null) {
      empty[from]?.push({ to, logp });
      continue;
    }
    const ways = language.lexicon[word] ?? [];
    if (ways.length === 0) throw new Error(`The lexicon has no pronunciation of "${word}".`);
    for (const way of ways) {
      const run = way.split(" ").map((phone) => number.get(phone));
      const first = positions.length;
      for (const phone of run) {
        if (phone === undefined)
          throw new Error(`"${word}" is pronounced with a phone unknown to the ear: ${way}.`);
        positions.push(phone);
      }
      leaving[from]?.push(arcs.length);
      arcs.push({ from, to, word, logp, first, length: run.length });
    }
  }
  const { states: nodes, start, end } = network;
  return { nodes, start, end, arcs, leaving, empty, phones: Uint8Array.from(positions) };
}
