import type { EarLanguage } from "../../../meaning/network.ts";
import type { PhoneGraph } from "./graph.ts";
import type { Ranked } from "./trail.ts";

/** After one of the words that start decimals at most this many words are still in the number. */
const AFTER_POINT = 2;

/**
 * Whether a breath after these words can only be their end. "CO2 nine" may go on with "point two", "CO forty" with
 * "five": they are waited for a little longer. "CO2 nine point two", "half a turn clockwise" and "scratch that" are over.
 */
export function closes(graph: PhoneGraph, hints: EarLanguage["hints"], way: Ranked | undefined): boolean {
  const last = way?.steps.at(-1);
  if (!way || !last) return false;
  if (way.steps.slice(-1 - AFTER_POINT, -1).some(({ word }) => hints.points.includes(word))) return true;
  const node = graph.arcs[last.arc]?.to;
  const onward = node === undefined ? [] : (graph.leaving[node] ?? []);
  return !onward.some((arc) => {
    const word = graph.arcs[arc]?.word ?? "";
    return hints.numerals.includes(word) || hints.points.includes(word);
  });
}
