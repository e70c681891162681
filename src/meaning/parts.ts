import { type Graph, graphOf } from "./graph.ts";
import { canStart, islandsFrom, type Looseness } from "./islands.ts";
import { type Edge, gatherBits, type Lattice } from "./lattice.ts";
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

/** Folds each part; one may lead through those before it. */
export function foldParts(parts: readonly Part[], symbols: Symbols, rows: Rows): PartGraph[] {
  return parts.map(({ name, network }) => ({
    symbol: symbols.add(name),
    graph: graphOf(network, symbols, rows),
  }));
}

export function indexParts(parts: readonly PartGraph[]): PartIndex {
  const firsts = new Map<number, ReadonlySet<number>>();
  const byFirst = new Map<number, number[]>();
  parts.forEach(({ symbol, graph }, place) => {
    const words = new Set<number>();
    for (const first of graph.start.steps.keys())
      for (const word of firsts.get(first) ?? [first]) words.add(word);
    firsts.set(symbol, words);
    for (const word of words) byFirst.set(word, [...(byFirst.get(word) ?? []), place]);
  });
  return { parts, byFirst };
}

/** Inside a number or a name only "uh" is passed over, and a comma hardly: "nine point two, too high, four" is no 9.24. */
const TIGHT: Looseness = { dearestFiller: 0.1, breaks: 4 };

/**
 * Adds to the lattice an edge for every stretch that is one of the parts: each number or name is found once, for all rules
 * that refer to it. Backwards through the phrase, so that a part sees the parts inside it.
 */
export function addParts(lattice: Lattice, { parts, byFirst }: PartIndex, rows: Rows): void {
  const { edges } = lattice;
  for (let node = edges.length - 1; node >= 0; node -= 1) {
    const out = edges[node] ?? [];
    const pause = out[0]?.pause ?? 0;
    for (const place of wantedBy(out, byFirst)) {
      const part = parts[place];
      if (!part || !canStart(part.graph, lattice, node)) continue;
      for (const { end, cost, explained, row } of islandsFrom(part.graph, lattice, node, rows, TIGHT)) {
        out.push({ to: end, symbol: part.symbol, isPart: true, row, cost, pause, explains: explained });
      }
    }
    gatherBits(lattice, node);
  }
}

const NONE: readonly number[] = [];

/** The places of the parts that can begin with one of the edges, in order, each once. */
function wantedBy(out: readonly Edge[], byFirst: PartIndex["byFirst"]): readonly number[] {
  const [first] = out;
  if (!first) return NONE;
  if (out.length === 1) return byFirst.get(first.symbol) ?? NONE;
  const all = new Set<number>();
  for (const { symbol } of out) for (const place of byFirst.get(symbol) ?? NONE) all.add(place);
  return [...all].sort((a, b) => a - b);
}
