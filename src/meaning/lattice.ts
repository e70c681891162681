import type { Confusion, Filler } from "./network.ts";
import { bitOf, type Symbols } from "./symbols.ts";
import type { Word } from "./words.ts";

/** An edge of the lattice: a word or part that may have been meant. */
export interface Edge {
  readonly to: number;
  /** The word or part. */
  readonly symbol: number;
  readonly isPart: boolean;
  /** The row of tags that a part brings. */
  readonly row: number;
  /** In nats. */
  readonly cost: number;
  /** What crossing the break before it costs more, inside an island. */
  readonly pause: number;
  /** How many of the phrase's words it explains. */
  readonly explains: number;
}

/** A filler that may be passed over. */
export interface Pass {
  readonly to: number;
  /** In nats. */
  readonly cost: number;
}

/**
 * All that a phrase may have meant, as a graph over its words in which every edge leads to a later node: the words as
 * written cost nothing, what they are often confused with costs what the confusion list says.
 */
export interface Lattice {
  readonly words: readonly Word[];
  /** Edges out of each node. */
  readonly edges: readonly Edge[][];
  /** Fillers that begin at each node. */
  readonly passes: readonly (readonly Pass[])[];
  /** The bits (`bitOf`) of all that can be said next from each node, fillers passed over: a quick no. */
  readonly bits: number[];
  /** The word before which a node stands; -1 inside a confusion of several words. The last stands after all words. */
  readonly wordAt: readonly number[];
  /** The node before each word, and after all of them. */
  readonly nodeAt: readonly number[];
}

/** Crossing a comma or full stop inside one island: possible, but a hint that another one starts. */
const BREAK_COST = 0.35;

/** A confusion or filler as the lattice uses it: symbols that may be meant for the words heard. */
interface Listed {
  readonly heard: readonly string[];
  /** Words that must follow. */
  readonly before: readonly string[];
  readonly means: readonly number[];
  readonly cost: number;
}

/** What may be meant from a word on, by that word. */
export type ConfusionIndex = (word: string) => readonly Listed[];

/** In a confusion's list of words that must follow: none may. */
const CLAUSE_END = "$";
/** Words met before are remembered, up to this many. */
const MOST_KNOWN = 5000;

export function indexConfusions(
  confusions: readonly Confusion[],
  fillers: readonly Filler[],
  symbols: Symbols,
): ConfusionIndex {
  const byFirst = new Map<string, Listed[]>();
  const byEnding: (readonly [ending: string, Confusion])[] = [];
  const list = (listed: Listed) => {
    const [first = ""] = listed.heard;
    byFirst.set(first, [...(byFirst.get(first) ?? []), listed]);
  };
  for (const confusion of confusions) {
    const [first = ""] = confusion.heard;
    if (first.startsWith("*")) byEnding.push([first.slice(1), confusion]);
    else list({ ...confusion, means: confusion.means.map((word) => symbols.add(word)) });
  }
  for (const { words, cost } of fillers) list({ heard: words, before: [], means: [], cost });

  const ended = (word: string): Listed[] =>
    byEnding
      .filter(([ending]) => word.length > ending.length && word.endsWith(ending))
      .map(([ending, { before, means, cost }]) => {
        const stem = word.slice(0, -ending.length);
        return {
          heard: [word],
          before,
          cost,
          means: means.map((meant) => symbols.of(meant === "*" ? stem : meant)),
        };
      });
  const known = new Map<string, readonly Listed[]>();
  return (word) => {
    const before = known.get(word);
    if (before) return before;
    if (known.size > MOST_KNOWN) known.clear();
    const found = [...(byFirst.get(word) ?? []), ...ended(word)];
    known.set(word, found);
    return found;
  };
}

export function latticeOf(words: readonly Word[], confusions: ConfusionIndex, symbols: Symbols): Lattice {
  const nodeAt: number[] = [];
  const wordAt: number[] = [];
  const listed: (readonly Listed[])[] = [];
  for (let i = 0; i < words.length; i += 1) {
    nodeAt.push(wordAt.length);
    wordAt.push(i);
    const all = confusions(words[i]?.word ?? "");
    const here = all.length === 0 ? all : all.filter((each) => fits(words, i, each));
    listed.push(here);
    for (const { means } of here) for (let k = 1; k < means.length; k += 1) wordAt.push(-1);
  }
  nodeAt.push(wordAt.length);
  wordAt.push(words.length);

  const edges: Edge[][] = wordAt.map(() => []);
  const passes: Pass[][] = wordAt.map(() => []);
  for (let i = 0; i < words.length; i += 1) {
    const word = words[i];
    const node = nodeAt[i] ?? 0;
    if (!word) continue;
    const pause = word.afterBreak ? BREAK_COST : 0;
    const plain = { symbol: symbols.of(word.word), isPart: false, row: 0, cost: 0, pause, explains: 1 };
    edges[node]?.push({ ...plain, to: nodeAt[i + 1] ?? 0 });
    let inner = node;
    for (const { heard, means, cost } of listed[i] ?? []) {
      const end = nodeAt[i + heard.length] ?? 0;
      if (means.length === 0) passes[node]?.push({ to: end, cost });
      let at = node;
      for (let k = 0; k < means.length; k += 1) {
        const symbol = means[k] ?? 0;
        const first = k === 0;
        const last = k === means.length - 1;
        if (!last) inner += 1;
        const to = last ? end : inner;
        edges[at]?.push(
          first
            ? { to, symbol, isPart: false, row: 0, cost, pause, explains: heard.length }
            : { to, symbol, isPart: false, row: 0, cost: 0, pause: 0, explains: 0 },
        );
        at = to;
      }
    }
  }
  const lattice = { words, edges, passes, bits: new Array<number>(edges.length).fill(0), wordAt, nodeAt };
  for (let node = edges.length - 1; node >= 0; node -= 1) gatherBits(lattice, node);
  return lattice;
}

/** Works out the bits of a node from its edges and those of the nodes after it. */
export function gatherBits({ edges, passes, bits }: Lattice, node: number): void {
  let all = 0;
  for (const { symbol } of edges[node] ?? []) all |= bitOf(symbol);
  for (const { to } of passes[node] ?? []) all |= bits[to] ?? 0;
  bits[node] = all;
}

/** Whether what is listed for the `i`th word stands there. */
function fits(words: readonly Word[], i: number, { heard, before }: Listed): boolean {
  for (let k = 1; k < heard.length; k += 1) if (words[i + k]?.word !== heard[k]) return false;
  for (let k = 0; k < before.length; k += 1) {
    const next = words[i + heard.length + k];
    if (before[k] === CLAUSE_END ? next && !next.afterBreak : next?.word !== before[k]) return false;
  }
  // "CO 250" is no CO2 of fifty: a numeral stays whole.
  return heard.length === 1 || !(words[i]?.within || words[i + heard.length]?.within);
}
