import { assemble, type Heard } from "./assemble.ts";
import { type Context, NO_CONTEXT } from "./context.ts";
import { graphOf } from "./graph.ts";
import type { Meaning } from "./item.ts";
import { indexConfusions, type Lattice, latticeOf } from "./lattice.ts";
import type { Language } from "./network.ts";
import { bestPath, type Found } from "./path.ts";
import { wordsOf } from "./words.ts";

/** Words -> meaning. Never throws: what is not understood comes back as `unsure` or not at all. */
export interface Parser {
  /** `confidence` is the ear's own, 0 to 1; typed text has 1. */
  parse(text: string, context?: Context, confidence?: number): Meaning;
}

/** Longer than anybody says in one breath; the rest is not read. */
const MOST_WORDS = 400;

/** Makes a parser from a compiled language. */
export function createParser(language: Language): Parser {
  const graph = graphOf(language.island);
  const confusions = indexConfusions(language.confusions, language.fillers);
  return {
    parse(text, context = NO_CONTEXT, confidence = 1) {
      const lattice = latticeOf(wordsOf(text).slice(0, MOST_WORDS), confusions);
      const found = bestPath(graph, lattice, context);
      return assemble(
        text,
        found.map((island) => heardOf(text, lattice, found, island, confidence)),
        context,
      );
    },
  };
}

function heardOf(
  text: string,
  lattice: Lattice,
  found: readonly Found[],
  island: Found,
  confidence: number,
): Heard {
  const { words } = lattice;
  const from = words[island.start]?.start ?? 0;
  // A note runs to the end of the phrase, punctuation and all.
  const to = island.piece.kind === "note" ? text.length : (words[island.end - 1]?.end ?? text.length);
  return {
    ...island,
    said: text.slice(from, to).trim(),
    alone: besideMeaning(lattice, found, island.start, -1) && besideMeaning(lattice, found, island.end, 1),
    confidence: Number((confidence * island.share * Math.exp(-island.cost / 20)).toFixed(3)),
  };
}

/**
 * Whether, going one way from a node, the first thing met is a piece of meaning or the end of the phrase: fillers and
 * further strays are passed over, any other word means that this was talk.
 */
function besideMeaning(lattice: Lattice, found: readonly Found[], node: number, way: 1 | -1): boolean {
  if (node === (way === 1 ? lattice.words.length : 0)) return true;
  const next = found.find((island) => (way === 1 ? island.start : island.end) === node);
  if (next && !next.piece.kind.startsWith("stray")) return true;
  if (next) return besideMeaning(lattice, found, way === 1 ? next.end : next.start, way);
  for (let other = 0; other <= lattice.words.length; other += 1) {
    const [from, to] = way === 1 ? [node, other] : [other, node];
    const filler = lattice.edges[from]?.some((edge) => edge.word === null && edge.to === to);
    if (filler && besideMeaning(lattice, found, other, way)) return true;
  }
  return false;
}
