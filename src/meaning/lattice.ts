import type { Confusion, Filler } from "./network.ts";
import type { Symbols } from "./symbols.ts";
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
  /** The word before which a node stands; -1 inside a confusion of several words. The last stands after all words. */
  readonly wordAt: readonly number[];
  /** The node before each word, and after all of them. */
  readonly nodeAt: readonly number[];
}

/** Crossing a comma or full stop inside one island: possible, but a hint that another one starts. */
const BREAK_COST = 0.25;

/** A confusion or filler as the lattice uses it. `means` null is the stem of the word. */
interface Listed {
  readonly heard: readonly string[];
  readonly before: readonly string[];
  readonly means: readonly (number | null)[];
  readonly cost: number;
}

/** Finds confusions and fillers quickly: by their first word, or by how that ends. */
export interface ConfusionIndex {
  readonly byFirst: ReadonlyMap<string, readonly Listed[]>;
  readonly byEnding: readonly (readonly [ending: string, Listed])[];
}

export function indexConfusions(
  confusions: readonly Confusion[],
  fillers: readonly Filler[],
  symbols: Symbols,
): ConfusionIndex {
  const byFirst = new Map<string, Listed[]>();
  const byEnding: [string, Listed][] = [];
  const list = (listed: Listed) => {
    const [first = ""] = listed.heard;
    if (first.startsWith("*")) byEnding.push([first.slice(1), listed]);
    else byFirst.set(first, [...(byFirst.get(first) ?? []), listed]);
  };
  for (const { heard, before, means, cost } of confusions) {
    list({ heard, before, cost, means: means.map((word) => (word === "*" ? null : symbols.add(word))) });
  }
  for (const { words, cost } of fillers) list({ heard: words, before: [], means: [], cost });
  return { byFirst, byEnding };
}

export function latticeOf(words: readonly Word[], index: ConfusionIndex, symbols: Symbols): Lattice {
  const listed = words.map((_, i) => confusionsAt(words, i, index));
  const nodeAt: number[] = [];
  const wordAt: number[] = [];
  for (let i = 0; i < words.length; i += 1) {
    nodeAt.push(wordAt.length);
    wordAt.push(i);
    for (const { means } of listed[i] ?? []) for (let k = 1; k < means.length; k += 1) wordAt.push(-1);
  }
  nodeAt.push(wordAt.length);
  wordAt.push(words.length);

  const edges: Edge[][] = wordAt.map(() => []);
  const passes: Pass[][] = wordAt.map(() => []);
  words.forEach((word, i) => {
    const node = nodeAt[i] ?? 0;
    const pause = word.afterBreak ? BREAK_COST : 0;
    const from = (at: number, to: number, symbol: number, cost: number, first: boolean, explains: number) =>
      edges[at]?.push({ to, symbol, isPart: false, row: 0, cost, pause: first ? pause : 0, explains });
    from(node, nodeAt[i + 1] ?? 0, symbols.of(word.word), 0, true, 1);
    let inner = node;
    for (const { heard, means, cost, stem } of listed[i] ?? []) {
      const end = nodeAt[i + heard.length] ?? 0;
      if (means.length === 0) passes[node]?.push({ to: end, cost });
      let at = node;
      means.forEach((meant, k) => {
        if (k < means.length - 1) inner += 1;
        const to = k < means.length - 1 ? inner : end;
        from(at, to, meant ?? symbols.of(stem), k === 0 ? cost : 0, k === 0, k === 0 ? heard.length : 0);
        at = to;
      });
    }
  });
  return { words, edges, passes, wordAt, nodeAt };
}

/** What may stand for the words from the `i`th on, with the stem where the word has a listed ending. */
function confusionsAt(
  words: readonly Word[],
  i: number,
  { byFirst, byEnding }: ConfusionIndex,
): (Listed & { readonly stem: string })[] {
  const found: (Listed & { readonly stem: string })[] = [];
  const word = words[i];
  if (!word) return found;
  for (const listed of byFirst.get(word.word) ?? []) {
    if (follows(words, i, listed)) found.push({ ...listed, stem: "" });
  }
  for (const [ending, listed] of byEnding) {
    if (word.word.length > ending.length && word.word.endsWith(ending)) {
      found.push({ ...listed, stem: word.word.slice(0, -ending.length) });
    }
  }
  return found;
}

function follows(words: readonly Word[], i: number, { heard, before }: Listed): boolean {
  for (let k = 1; k < heard.length; k += 1) if (words[i + k]?.word !== heard[k]) return false;
  for (let k = 0; k < before.length; k += 1) if (words[i + heard.length + k]?.word !== before[k]) return false;
  // "CO 250" is no CO2 of fifty: a numeral stays whole.
  return heard.length === 1 || !(words[i]?.within || words[i + heard.length]?.within);
}
