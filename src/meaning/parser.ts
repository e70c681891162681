import { assemble, type Heard } from "./assemble.ts";
import { type Context, NO_CONTEXT } from "./context.ts";
import { graphOf } from "./graph.ts";
import type { Meaning } from "./item.ts";
import { indexConfusions, type Lattice, latticeOf } from "./lattice.ts";
import type { ParserLanguage } from "./network.ts";
import { bestPath, type Found } from "./path.ts";
import { wordsOf } from "./words.ts";

/** Words -> meaning. Never throws: what is not understood comes back as `unsure` or not at all. */
export interface Parser {
  /** `confidence` is the ear's own, 0 to 1; typed text has 1. */
  parse(text: string, context?: Context, confidence?: number): Meaning;
}

/** Longer than anybody says in one breath; the rest is not read. */
const MOST_WORDS = 120;

/** Makes a parser from a compiled language. */
export function createParser(language: ParserLanguage): Parser {
  const graph = graphOf(language.island);
  const confusions = indexConfusions(language.confusions, language.fillers);
  return {
    parse(text, context = NO_CONTEXT, confidence = 1) {
      const lattice = latticeOf(wordsOf(text).slice(0, MOST_WORDS), confusions);
      const found = bestPath(graph, lattice, context);
      const before = besideMeaning(lattice, found, -1);
      const after = besideMeaning(lattice, found, 1);
      const heard = found.map(
        (island): Heard => ({
          ...island,
          said: saidOf(text, lattice, island),
          alone: (before[island.start] ?? false) && (after[island.end] ?? false),
          confidence: Number((confidence * island.share * Math.exp(-island.cost / 20)).toFixed(3)),
        }),
      );
      return assemble(text, heard, context, confidence);
    },
  };
}

/** The exact words of an island. A note runs to the end of the phrase, punctuation and all. */
function saidOf(text: string, { words }: Lattice, { piece, start, end }: Found): string {
  const from = words[start]?.start ?? 0;
  const to = piece.kind === "note" ? text.length : (words[end - 1]?.end ?? text.length);
  return text.slice(from, to).trim();
}

/**
 * For each node whether, going one way from it, the first thing met is a piece of meaning or the end of the phrase:
 * fillers and strays are passed over, any other word means that this was talk.
 */
function besideMeaning(lattice: Lattice, found: readonly Found[], way: 1 | -1): boolean[] {
  const last = lattice.words.length;
  const beside: boolean[] = new Array(last + 1).fill(false);
  beside[way === 1 ? last : 0] = true;
  const spread = (from: number, to: number) => {
    if (beside[way === 1 ? to : from]) beside[way === 1 ? from : to] = true;
  };
  for (let k = 0; k < last; k += 1) {
    const node = way === 1 ? last - 1 - k : k;
    for (const island of found) {
      if (island.start !== node) continue;
      if (island.piece.kind.startsWith("stray")) spread(node, island.end);
      else beside[way === 1 ? node : island.end] = true;
    }
    for (const edge of lattice.edges[node] ?? []) if (edge.word === null) spread(node, edge.to);
  }
  return beside;
}
