import type { KeyWordHeard } from "../../device/spotter/detect.ts";
import { type Figure, isFigureWord, mayFollow } from "./figures.ts";

/** What words that count together come to. */
export type Counted =
  /** The beginning of a number: it is not logged before it was read back. */
  | { readonly kind: "figures"; readonly figures: readonly [Figure, ...Figure[]] }
  /** The surest of a word that was said once or more. */
  | { readonly kind: "word"; readonly heard: KeyWordHeard }
  | { readonly kind: "nothing" };

/** "Yes", and "no" behind it: nobody knows which. To be left alone ("stop") goes first. */
export function countedOf(counts: readonly KeyWordHeard[]): Counted {
  const figures: Figure[] = [];
  for (const { word, chance } of counts) {
    if (isFigureWord(word) && mayFollow(figures, word)) figures.push({ word, confidence: chance });
  }
  const [first, ...more] = figures;
  if (first) return { kind: "figures", figures: [first, ...more] };
  const word = (counts.find((one) => one.word === "stop") ?? counts[0])?.word;
  const same = counts.filter((one) => one.word === word).toSorted((a, b) => b.chance - a.chance);
  const [surest] = same;
  if (!surest || (word !== "stop" && same.length < counts.length)) return { kind: "nothing" };
  return { kind: "word", heard: surest };
}
