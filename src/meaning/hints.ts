import type { Grammar } from "./abnf/syntax.ts";

/** What a language says of its words beside its rules, from the `meta` lines of its files. */
export interface Hints {
  /** After these, one of `joints` goes on with the number ("a hundred and eighty"). */
  readonly magnitudes: readonly string[];
  readonly joints: readonly string[];
  /** After a number these make it go on ("one | point four bar"). */
  readonly points: readonly string[];
  /** Words that a whole number can go on with ("forty | five", "two | hundred"). */
  readonly numerals: readonly string[];
  /** Endings of a word that counts things, and endings that are none of those. */
  readonly plurals: readonly string[];
  readonly singulars: readonly string[];
}

/** The hints of all files of a language together. */
export function hintsOf(grammars: Iterable<Grammar>): Hints {
  const all = [...grammars];
  const words = (name: keyof Hints) => all.flatMap(({ meta }) => meta.get(name)?.words ?? []);
  return {
    magnitudes: words("magnitudes"),
    joints: words("joints"),
    points: words("points"),
    numerals: words("numerals"),
    plurals: words("plurals"),
    singulars: words("singulars"),
  };
}
