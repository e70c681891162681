import type { Context } from "./context.ts";
import { cutsOf, cutting, type Vocabulary } from "./cuts.ts";
import { doubt } from "./doubt.ts";
import type { Found, Rival, Span } from "./found.ts";
import type { Graph } from "./graph.ts";
import { canStart, islandsFrom } from "./islands.ts";
import type { Lattice } from "./lattice.ts";
import { type Judged, type Piece, samePiece } from "./piece.ts";
import { againstKnown, unexpected } from "./plausible.ts";
import type { Rows } from "./rows.ts";

// Costs in nats, chosen on tests/corpus: what must be true for a reading to be preferred, not probabilities measured.
const ISLAND = 0.4;
const ASIDE = 0.1;
const SKIP_WORD = 1.5;
const SKIP_KNOWN = 2;
const SKIP_NUMBER = 3;
/** Readings of the whole phrase this close to the best are rivals. */
export const MARGIN = 1.5;

/** All islands of a phrase, by the word they begin with. */
export function spansOf(
  graph: Graph,
  vocabulary: Vocabulary,
  lattice: Lattice,
  rows: Rows,
  said: (row: number) => Judged | null,
  context: Context,
): Span[][] {
  const { words, wordAt, edges } = lattice;
  const last = words.length;
  const cuts = cutsOf(vocabulary, lattice);
  const spans: Span[][] = words.map(() => []);
  for (let node = 0; node < edges.length; node += 1) {
    const start = wordAt[node] ?? -1;
    // A typed numeral belongs to one island.
    if (start < 0 || start >= last || words[start]?.within || !canStart(graph, lattice, node)) continue;
    for (const island of islandsFrom(graph, lattice, node, rows)) {
      const end = wordAt[island.end] ?? -1;
      if (end < 0 || words[end]?.within) continue;
      const means = said(island.row);
      if (!means || (means.piece.kind === "note" && end !== last)) continue;
      const { piece, place, implausible } = means;
      const own = piece.kind === "aside" ? ASIDE : ISLAND + cutting(cuts[start], cuts[end], piece);
      const cost = island.cost + own + implausible + unexpected(piece, context);
      spans[start]?.push({ start, end, explained: island.explained, piece, place, cost });
    }
  }
  return spans;
}

/** The cheapest way through the whole phrase: islands in a row, the rest passed over. */
export function bestPath(
  spans: readonly (readonly Span[])[],
  vocabulary: Vocabulary,
  lattice: Lattice,
): Found[] {
  const last = lattice.words.length;
  const skips = lattice.words.map((_, i) => skipsAt(vocabulary, lattice, i));
  const { ahead, chosen, fits } = forward(lattice, spans, skips);
  const behind = backward(spans, skips);
  const best = ahead[last] ?? 0;
  return chosen.map((span) => {
    const rivals: Rival[] = [];
    let weight = 1;
    if (span.piece.kind === "aside") return { ...span, rivals, share: 1 };
    // A rival explains at least the same words; one that drops some of them is merely worse.
    for (let start = 0; start <= span.start; start += 1) {
      for (const other of spans[start] ?? []) {
        if (other.end < span.end || other.explained < span.explained) continue;
        if (!contradicts(span, other) || !fits(other)) continue;
        const through = (ahead[start] ?? 0) + other.cost + (behind[other.end] ?? 0) - best;
        if (through > MARGIN) continue;
        weight += Math.exp(-through);
        if (!rivals.some((known) => samePiece(known.piece, other.piece)))
          rivals.push({ piece: other.piece, behind: through });
      }
    }
    return { ...span, rivals, share: 1 / weight };
  });
}

/** Whether another way to read the same words would log something else, not merely less. */
function contradicts(chosen: Span, other: Span): boolean {
  if (samePiece(chosen.piece, other.piece)) return false;
  switch (other.piece.kind) {
    case "aside":
    case "answer":
      return false;
    // "oh two zero" may be O2 of 0, but not if a number explains more of what was said.
    case "stray-number":
      return other.explained > chosen.explained;
    // What cannot be is no rival, unless a unit that was said makes it so: "CO forty percent".
    case "reading":
      return (
        other.explained > chosen.explained ||
        doubt(other.piece.quantity, other.piece.value, other.piece.unit) === null
      );
    case "stray-quantity":
      return !("quantity" in chosen.piece) || chosen.piece.quantity !== other.piece.quantity;
    default:
      return true;
  }
}

interface Skip {
  readonly to: number;
  readonly cost: number;
  readonly filler: boolean;
}

function skipsAt({ known, numbers }: Vocabulary, lattice: Lattice, at: number): Skip[] {
  const word = lattice.words[at]?.word ?? "";
  const cost = numbers.has(word) ? SKIP_NUMBER : known.has(word) ? SKIP_KNOWN : SKIP_WORD;
  const skips: Skip[] = [{ to: at + 1, cost, filler: false }];
  for (const pass of lattice.passes[lattice.nodeAt[at] ?? 0] ?? []) {
    skips.push({ to: lattice.wordAt[pass.to] ?? at + 1, cost: pass.cost, filler: true });
  }
  return skips;
}

/** What stands before a node on the cheapest way to it, fillers aside. */
type Before = "head" | "meaning" | "talk";

/** Least cost of reaching each node from the start, and the islands on the cheapest way through. */
function forward(
  { words }: Lattice,
  spans: readonly (readonly Span[])[],
  skips: readonly (readonly Skip[])[],
) {
  const last = skips.length;
  const ahead: number[] = new Array(last + 1).fill(Number.POSITIVE_INFINITY);
  const via: ({ from: number; span: Span | null } | undefined)[] = [];
  const before: Before[] = new Array(last + 1).fill("head");
  ahead[0] = 0;
  const reach = (from: number, to: number, cost: number, span: Span | null, then: Before) => {
    if (cost >= (ahead[to] ?? 0)) return;
    ahead[to] = cost;
    via[to] = { from, span };
    before[to] = words[to]?.afterBreak ? "head" : then;
  };
  const fits = ({ place, start }: Span): boolean =>
    place === null || (place === "lead" ? before[start] === "head" : before[start] !== "talk");
  for (let node = 0; node < last; node += 1) {
    const so = ahead[node] ?? 0;
    const was = before[node] ?? "head";
    for (const { to, cost, filler } of skips[node] ?? [])
      reach(node, to, so + cost, null, filler ? was : "talk");
    for (const span of spans[node] ?? []) {
      if (!fits(span)) continue;
      const then = span.piece.kind === "aside" ? (span.piece.aside === "number" ? "talk" : was) : "meaning";
      reach(node, span.end, so + span.cost, span, then);
    }
  }
  const chosen: Span[] = [];
  for (let step = via[last]; step; step = via[step.from]) if (step.span) chosen.unshift(step.span);
  return { ahead, chosen, fits };
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

/**
 * Ranks each island's rivals again by what is known of the visit: the likeliest becomes its piece, and only those that stay
 * close to it remain. A rival of another quantity goes only where something known speaks against it: that CO2 was 9.8 makes
 * "CO two ten" no less a CO of 210.
 */
export function decided(found: readonly Found[], context: Context): Found[] {
  return found.map((island) => {
    if (island.rivals.length === 0) return island;
    const ways = [{ piece: island.piece, behind: 0 }, ...island.rivals]
      .map(({ piece, behind }) => ({ piece, behind, against: againstKnown(piece, context) }))
      .sort((a, b) => a.behind + a.against - b.behind - b.against);
    const [best, ...others] = ways;
    if (!best) return island;
    const rivals = others
      .map((way) => ({ ...way, behind: way.behind + way.against - best.behind - best.against }))
      .filter(
        ({ piece, behind, against }) =>
          behind <= MARGIN || (against <= 0 && !sameQuantity(piece, best.piece)),
      )
      .map(({ piece, behind }) => ({ piece, behind }));
    return { ...island, piece: best.piece, rivals };
  });
}

function sameQuantity(a: Piece, b: Piece): boolean {
  return a.kind === "reading" && b.kind === "reading" && a.quantity === b.quantity;
}
