import { COLUMNS } from "../../device/spotter/words.ts";

/** Where in a window a word lies. */
export type Placed =
  /** Nobody speaks. */
  | { readonly kind: "nothing" }
  /** It goes on beyond the newest column. */
  | { readonly kind: "coming" }
  /** It began before the oldest column. */
  | { readonly kind: "cut" }
  /** More than one word: it fills the window, or another stretch of voice is beside it. */
  | { readonly kind: "more" }
  /** All of it. `past`: how many columns its middle lies before that of the window; negative while it is yet to come there. */
  | { readonly kind: "whole"; readonly past: number; readonly peak: number };

/** Gaps of up to so many columns (0.21 s) are of the word: "eight" and "six" close the mouth before their end. */
const GAP = 9;
/** What is shorter than so many columns (93 ms) is a click or a bump. */
const SHORTEST = 4;
/** So far below its loudest column a word is over, dB: the rest is breath and echo. */
const DEEP = 30;
/** A second stretch as loud as this below the first is a second word, dB. */
const BESIDE = 15;

interface Stretch {
  readonly first: number;
  readonly last: number;
  readonly peak: number;
}

/** Finds the word in the levels of a window. `from`: at and above it a column is voice, dB. */
export function placeWord(levels: readonly number[], from: number): Placed {
  const loudest = Math.max(...levels);
  const stretches = stretchesOf(levels, Math.max(from, loudest - DEEP));
  const [word] = [...stretches].sort((a, b) => b.peak - a.peak);
  if (!word) return { kind: "nothing" };
  const begins = word.first > 0;
  const ends = word.last < COLUMNS - 1;
  if (!begins && !ends) return { kind: "more" };
  if (!ends) return { kind: "coming" };
  if (!begins) return { kind: "cut" };
  if (stretches.some((other) => other !== word && other.peak > word.peak - BESIDE)) return { kind: "more" };
  return { kind: "whole", past: (COLUMNS - 1 - word.first - word.last) / 2, peak: word.peak };
}

/** Share of the columns in which somebody speaks, 0 to 1. */
export function voiceShare(levels: readonly number[], from: number): number {
  return levels.filter((level) => level >= from).length / levels.length;
}

function stretchesOf(levels: readonly number[], from: number): readonly Stretch[] {
  const found: Stretch[] = [];
  for (const [column, level] of levels.entries()) {
    if (level < from) continue;
    const before = found.at(-1);
    if (before && column - before.last - 1 <= GAP)
      found[found.length - 1] = {
        first: before.first,
        last: column,
        peak: Math.max(before.peak, level),
      };
    else found.push({ first: column, last: column, peak: level });
  }
  // At an edge it may only begin, or be over.
  return found.filter(
    ({ first, last }) => last - first + 1 >= SHORTEST || first === 0 || last === COLUMNS - 1,
  );
}
