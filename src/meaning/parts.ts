import { type Graph, graphOf } from "./graph.ts";
import { canStart, islandsFrom, type Looseness } from "./islands.ts";
import { gatherBits, type Lattice } from "./lattice.ts";
import type { Part } from "./network.ts";
import type { Rows } from "./rows.ts";
import type { Symbols } from "./symbols.ts";

/** A part as the parser walks it. */
export interface PartGraph {
  readonly symbol: number;
  readonly graph: Graph;
}

/** The parts of a language, in an order in which each comes after those inside it, found by the words they begin with. */
export interface PartIndex {
  readonly parts: readonly PartGraph[];
  /** Word -> the places in `parts` of those that can begin with it. */
  readonly byFirst: ReadonlyMap<number, readonly number[]>;
}

export function indexParts(parts: readonly Part[], symbols: Symbols, rows: Rows): PartIndex {
  const graphs = parts.map(({ name, network }) => ({
    symbol: symbols.add(name),
    graph: graphOf(network, symbols, rows),
  }));
  const firsts = new Map<number, ReadonlySet<number>>();
  const byFirst = new Map<number, number[]>();
  graphs.forEach(({ symbol, graph }, place) => {
    const words = new Set<number>();
    for (const first of graph.start.steps.keys())
      for (const word of firsts.get(first) ?? [first]) words.add(word);
    firsts.set(symbol, words);
    for (const word of words) byFirst.set(word, [...(byFirst.get(word) ?? []), place]);
  });
  return { parts: graphs, byFirst };
}

/** Inside a number or a name only "uh" is passed over, and a comma hardly: "nine point two, too high, four" is no 9.24. */
const TIGHT: Looseness = { dearestFiller: 0.1, breaks: 4 };

/**
 * Adds to the lattice an edge for every stretch that is one of the parts: each number or name is found once, for all rules
 * that refer to it. Backwards through the phrase, so that a part sees the parts inside it.
 */
export function addParts(lattice: Lattice, index: PartIndex, rows: Rows): void {
  const { edges } = lattice;
  const wanted: boolean[] = [];
  for (let node = edges.length - 1; node >= 0; node -= 1) {
    const out = edges[node] ?? [];
    wanted.length = 0;
    for (const { symbol } of out) {
      for (const place of index.byFirst.get(symbol) ?? []) wanted[place] = true;
    }
    const pause = out[0]?.pause ?? 0;
    for (let place = 0; place < wanted.length; place += 1) {
      const part = wanted[place] ? index.parts[place] : undefined;
      if (!part || !canStart(part.graph, lattice, node)) continue;
      for (const { end, cost, explained, row } of islandsFrom(part.graph, lattice, node, rows, TIGHT)) {
        out.push({ to: end, symbol: part.symbol, isPart: true, row, cost, pause, explains: explained });
      }
    }
    gatherBits(lattice, node);
  }
}
