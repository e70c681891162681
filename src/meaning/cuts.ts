import type { Hints } from "./hints.ts";
import type { Lattice } from "./lattice.ts";
import type { Piece } from "./piece.ts";

/** "two teas", "seven pence": a number before what is not measured here counts that. */
const COUNTED = 8;
/** A numeral said in words is rarely cut in two ("eighty | five ppm CO"). */
const SPLIT = 2;

/** What the parser knows of the words: those of any rule, and those of numbers. `thing`: the part that talk counts by. */
export interface Vocabulary {
  readonly known: ReadonlySet<string>;
  readonly numbers: ReadonlySet<string>;
  readonly thing: number;
  readonly hints: Hints;
}

/** What it costs, in nats, to begin or end an island at one place between two words. */
interface Cut {
  /** Whatever the island. */
  readonly split: number;
  /** At the end of any island; of one with a value; of one with a whole value. */
  readonly end: number;
  readonly afterValue: number;
  readonly afterWhole: number;
}

/** The cut before each word of a phrase, and after the last. */
export function cutsOf(
  { known, numbers, thing, hints }: Vocabulary,
  { words, edges, nodeAt }: Lattice,
): readonly Cut[] {
  const number = words.map(({ word }) => numbers.has(word));
  const cuts: Cut[] = [];
  for (let i = 0; i <= words.length; i += 1) {
    const next = words[i];
    const before = number[i - 1] ?? false;
    if (!next) {
      cuts.push(NO_CUT);
      continue;
    }
    // "a hundred and eighty" is one numeral too.
    const joins =
      before &&
      number[i + 1] === true &&
      hints.joints.includes(next.word) &&
      hints.magnitudes.includes(words[i - 1]?.word ?? "");
    const split = before && !next.afterBreak && (number[i] === true || joins) ? SPLIT : 0;
    // "one | point four bar": a number that goes on is not that number.
    const end = before && hints.points.includes(next.word) ? COUNTED : 0;
    const isThing = !next.afterBreak && hasPart(edges[nodeAt[i] ?? 0] ?? [], thing);
    const isCounted = before && !next.afterBreak && !known.has(next.word) && isPlural(next.word, hints);
    const afterValue = isThing ? COUNTED : 0;
    cuts.push({ split, end, afterValue, afterWhole: isThing || isCounted ? COUNTED : 0 });
  }
  return cuts;
}

const NO_CUT: Cut = { split: 0, end: 0, afterValue: 0, afterWhole: 0 };

/** What speaks against an island from the words at its ends, in nats. */
export function cutting(before: Cut | undefined, after: Cut | undefined, piece: Piece): number {
  if (!before || !after) return 0;
  let counted = after.end;
  if ("value" in piece && piece.kind !== "stray-number") {
    counted = Math.max(counted, Number.isInteger(piece.value) ? after.afterWhole : after.afterValue);
  }
  return before.split + after.split + counted;
}

function hasPart(edges: Lattice["edges"][number], part: number): boolean {
  for (const { symbol } of edges) if (symbol === part) return true;
  return false;
}

/** Shorter words are no plurals. */
const PLURAL = /^\p{L}{4,}$/u;

function isPlural(word: string, { plurals, singulars }: Hints): boolean {
  const ends = (ending: string) => word.endsWith(ending);
  return PLURAL.test(word) && plurals.some(ends) && !singulars.some(ends);
}
