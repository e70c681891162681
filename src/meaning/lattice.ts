import type { Confusion, Filler } from "./network.ts";
import type { Word } from "./words.ts";

/** An edge of the lattice: a word that may have been meant, or (word null) a filler passed over. */
export interface Edge {
  readonly to: number;
  readonly word: string | null;
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

/** Finds confusions and fillers quickly: by their first word. */
export interface ConfusionIndex {
  readonly byFirst: ReadonlyMap<string, readonly (Confusion & { readonly filler: boolean })[]>;
}

export function indexConfusions(
  confusions: readonly Confusion[],
  fillers: readonly Filler[],
): ConfusionIndex {
  const byFirst = new Map<string, (Confusion & { filler: boolean })[]>();
  const all = [
    ...confusions.map((confusion) => ({ ...confusion, filler: false })),
    ...fillers.map(({ words, cost }) => ({ heard: words, means: [], cost, filler: true })),
  ];
  for (const confusion of all) {
    const [first = ""] = confusion.heard;
    const list = byFirst.get(first);
    if (list) list.push(confusion);
    else byFirst.set(first, [confusion]);
  }
  return { byFirst };
}

export function latticeOf(words: readonly Word[], index: ConfusionIndex): Lattice {
  const edges: Edge[][] = Array.from({ length: words.length + 1 }, () => []);
  const order: number[] = [];
  for (let i = 0; i <= words.length; i += 1) {
    order.push(i);
    const word = words[i];
    if (!word) continue;
    const pause = word.afterBreak ? BREAK_COST : 0;
    edges[i]?.push({ to: i + 1, word: word.word, cost: 0, pause, explains: 1 });
    for (const confusion of index.byFirst.get(word.word) ?? []) {
      const { heard, means, cost, filler } = confusion;
      if (!heard.every((part, k) => words[i + k]?.word === part)) continue;
      const end = i + heard.length;
      if (filler) edges[i]?.push({ to: end, word: null, cost, pause, explains: 0 });
      let at = i;
      means.forEach((meant, k) => {
        const last = k === means.length - 1;
        const to = last ? end : edges.length;
        if (!last) edges.push([]);
        edges[at]?.push(
          k === 0
            ? { to, word: meant, cost, pause, explains: heard.length }
            : { to, word: meant, cost: 0, pause: 0, explains: 0 },
        );
        if (!last) order.push(to);
        at = to;
      });
    }
  }
  return { words, edges, order };
}
