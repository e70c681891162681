import type { Confusion, Filler } from "./network.ts";
import type { Word } from "./words.ts";

/** An edge of the lattice: a word or part that may have been meant, or (word null) a filler passed over. */
export interface Edge {
  readonly to: number;
  readonly word: string | null;
  /** What a part says, and its number (`KeyOf`): a word alone says nothing. */
  readonly tags: readonly string[];
  readonly key: number;
  /** In nats. */
  readonly cost: number;
  /** What crossing the break before it costs more, inside an island. */
  readonly pause: number;
  /** How many of the phrase's words it explains: none when they are passed over. */
  readonly explains: number;
}

/**
 * All that a phrase may have meant, as a graph over its words: node `i` stands before word `i`; the words as written
 * cost nothing, what they are often confused with costs what the confusion list says. Nodes above `words.length` lie
 * inside a confusion of several words.
 */
export interface Lattice {
  readonly words: readonly Word[];
  /** Edges out of each node. */
  readonly edges: readonly (readonly Edge[])[];
  /** All nodes in an order in which every edge goes forward. */
  readonly order: readonly number[];
}

/** Crossing a comma or full stop inside one island: possible, but a hint that another one starts. */
const BREAK_COST = 0.25;

const PLAIN = { tags: [], key: 0 } as const;

type Listed = Confusion & { readonly filler: boolean };

/** Finds confusions and fillers quickly: by their first word, or by how that ends. */
export interface ConfusionIndex {
  readonly byFirst: ReadonlyMap<string, readonly Listed[]>;
  readonly byEnding: readonly (readonly [ending: string, Listed])[];
}

export function indexConfusions(
  confusions: readonly Confusion[],
  fillers: readonly Filler[],
): ConfusionIndex {
  const byFirst = new Map<string, Listed[]>();
  const byEnding: [string, Listed][] = [];
  const all = [
    ...confusions.map((confusion) => ({ ...confusion, filler: false })),
    ...fillers.map(({ words, cost }) => ({ heard: words, before: [], means: [], cost, filler: true })),
  ];
  for (const confusion of all) {
    const [first = ""] = confusion.heard;
    if (first.startsWith("*")) {
      byEnding.push([first.slice(1), confusion]);
      continue;
    }
    const list = byFirst.get(first);
    if (list) list.push(confusion);
    else byFirst.set(first, [confusion]);
  }
  return { byFirst, byEnding };
}

export function latticeOf(words: readonly Word[], index: ConfusionIndex): Lattice {
  const edges: Edge[][] = Array.from({ length: words.length + 1 }, () => []);
  const order: number[] = [];
  for (let i = 0; i <= words.length; i += 1) {
    order.push(i);
    const word = words[i];
    if (!word) continue;
    const pause = word.afterBreak ? BREAK_COST : 0;
    edges[i]?.push({ ...PLAIN, to: i + 1, word: word.word, cost: 0, pause, explains: 1 });
    for (const { heard, before, means, cost, filler } of heardAs(word.word, index)) {
      if (![...heard, ...before].every((part, k) => words[i + k]?.word === part)) continue;
      const end = i + heard.length;
      // "CO 250" is no CO2 of fifty: a numeral stays whole.
      if (heard.length > 1 && (word.within || words[end]?.within)) continue;
      if (filler) edges[i]?.push({ ...PLAIN, to: end, word: null, cost, pause, explains: 0 });
      let at = i;
      means.forEach((meant, k) => {
        const last = k === means.length - 1;
        const to = last ? end : edges.length;
        if (!last) edges.push([]);
        edges[at]?.push(
          k === 0
            ? { ...PLAIN, to, word: meant, cost, pause, explains: heard.length }
            : { ...PLAIN, to, word: meant, cost: 0, pause: 0, explains: 0 },
        );
        if (!last) order.push(to);
        at = to;
      });
    }
  }
  return { words, edges, order };
}

/** What a word, or a stem and its ending, begins. */
function heardAs(word: string, { byFirst, byEnding }: ConfusionIndex): readonly Listed[] {
  const listed = byFirst.get(word) ?? [];
  const ended = byEnding.find(([ending]) => word.length > ending.length && word.endsWith(ending));
  if (!ended) return listed;
  const [ending, { means, cost, filler }] = ended;
  const stem = word.slice(0, -ending.length);
  return [
    ...listed,
    { heard: [word], before: [], means: means.map((meant) => (meant === "*" ? stem : meant)), cost, filler },
  ];
}
