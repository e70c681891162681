import type { Context } from "./context.ts";
import { doubt } from "./doubt.ts";
import type { Graph } from "./graph.ts";
import { islandsFrom } from "./islands.ts";
import type { Lattice } from "./lattice.ts";
import { type Piece, pieceOf, samePiece } from "./piece.ts";

/** An island with what it says. `cost` counts its own weights and how implausible its value is. */
export interface Span {
  readonly start: number;
  readonly end: number;
  readonly cost: number;
  readonly explained: number;
  readonly piece: Piece;
}

/** One island of the best reading of a phrase, the rivals that come close to it, and how likely it is among them. */
export interface Found extends Span {
  readonly rivals: readonly Piece[];
  readonly share: number;
}

// Costs in nats, chosen on tests/corpus: what must be true for a reading to be preferred, not probabilities measured.
const ISLAND = 0.4;
const SKIP_WORD = 1.5;
const SKIP_KNOWN = 2;
const SKIP_NUMBER = 3;
const OUT_OF_BOUNDS = 1.5;
/** Readings of the whole phrase this close to the best are rivals. */
const MARGIN = 1.5;

/** The cheapest way through the whole phrase: islands in a row, the rest passed over. */
export function bestPath(graph: Graph, lattice: Lattice, context: Context): Found[] {
  const last = lattice.words.length;
  const spans: Span[][] = [];
  for (let start = 0; start < last; start += 1) {
    spans.push([]);
    for (const { end, cost, explained, tags } of islandsFrom(graph, lattice, start)) {
      const piece = pieceOf(tags);
      if (!piece || (piece.kind === "note" && end !== last)) continue;
      spans[start]?.push({ start, end, explained, piece, cost: ISLAND + cost + implausible(piece, context) });
    }
  }
  const skips = lattice.words.map((_, i) => skipsAt(graph, lattice, i));
  const { ahead, chosen } = forward(spans, skips);
  const behind = backward(spans, skips);
  const best = ahead[last] ?? 0;
  return chosen.map((span) => {
    const rivals: Piece[] = [];
    let weight = 1;
    // A rival explains at least the same words; one that drops some of them is merely worse.
    for (let start = 0; start <= span.start; start += 1) {
      for (const other of spans[start] ?? []) {
        if (other.end < span.end || other.explained < span.explained || !contradicts(span, other)) continue;
        const through = (ahead[start] ?? 0) + other.cost + (behind[other.end] ?? 0) - best;
        if (through > MARGIN) continue;
        weight += Math.exp(-through);
        if (!rivals.some((known) => samePiece(known, other.piece))) rivals.push(other.piece);
      }
    }
    return { ...span, rivals, share: 1 / weight };
  });
}

/** Whether another way to read the same words would log something else, not merely less. */
function contradicts(chosen: Span, other: Span): boolean {
  if (samePiece(chosen.piece, other.piece)) return false;
  // "oh two zero" may be O2 of 0, but not if a number explains more of what was said.
  if (other.piece.kind === "stray-number") return other.explained > chosen.explained;
  if (other.piece.kind !== "stray-quantity" || !("quantity" in chosen.piece)) return true;
  return chosen.piece.quantity !== other.piece.quantity;
}

function implausible(piece: Piece, context: Context): number {
  switch (piece.kind) {
    case "reading":
      return doubt(piece.quantity, piece.value, piece.unit) === null ? 0 : OUT_OF_BOUNDS;
    case "stray-number":
      return context.question ? 0 : 0.5;
    default:
      return 0;
  }
}

interface Skip {
  readonly to: number;
  readonly cost: number;
}

function skipsAt(graph: Graph, lattice: Lattice, node: number): Skip[] {
  const skips: Skip[] = [];
  const word = lattice.words[node]?.word ?? "";
  skips.push({
    to: node + 1,
    cost: NUMBER_WORDS.has(word) ? SKIP_NUMBER : graph.vocabulary.has(word) ? SKIP_KNOWN : SKIP_WORD,
  });
  for (const edge of lattice.edges[node] ?? [])
    if (edge.word === null) skips.push({ to: edge.to, cost: edge.cost });
  return skips;
}

/** Least cost of reaching each node from the start, and the islands on the cheapest way through. */
function forward(spans: readonly (readonly Span[])[], skips: readonly (readonly Skip[])[]) {
  const last = skips.length;
  const ahead: number[] = new Array(last + 1).fill(Number.POSITIVE_INFINITY);
  const via: ({ from: number; span: Span | null } | undefined)[] = [];
  ahead[0] = 0;
  const reach = (from: number, to: number, cost: number, span: Span | null) => {
    if (cost >= (ahead[to] ?? 0)) return;
    ahead[to] = cost;
    via[to] = { from, span };
  };
  for (let node = 0; node < last; node += 1) {
    const so = ahead[node] ?? 0;
    for (const skip of skips[node] ?? []) reach(node, skip.to, so + skip.cost, null);
    for (const span of spans[node] ?? []) reach(node, span.end, so + span.cost, span);
  }
  const chosen: Span[] = [];
  for (let step = via[last]; step; step = via[step.from]) if (step.span) chosen.unshift(step.span);
  return { ahead, chosen };
}

/** Least cost of reaching the end from each node. */
function backward(spans: readonly (readonly Span[])[], skips: readonly (readonly Skip[])[]): number[] {
  const last = skips.length;
  const behind: number[] = new Array(last + 1).fill(Number.POSITIVE_INFINITY);
  behind[last] = 0;
  for (let node = last - 1; node >= 0; node -= 1) {
    let least = Number.POSITIVE_INFINITY;
    for (const skip of skips[node] ?? []) least = Math.min(least, skip.cost + (behind[skip.to] ?? 0));
    for (const span of spans[node] ?? []) least = Math.min(least, span.cost + (behind[span.end] ?? 0));
    behind[node] = least;
  }
  return behind;
}

const NUMBER_WORDS: ReadonlySet<string> = new Set(
  (
    "zero oh one two three four five six seven eight nine niner ten eleven twelve thirteen fourteen fifteen sixteen " +
    "seventeen eighteen nineteen twenty thirty forty fifty sixty seventy eighty ninety hundred thousand point decimal"
  ).split(" "),
);
