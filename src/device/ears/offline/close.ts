import type { PhoneGraph } from "./graph.ts";
import type { Ranked } from "./trail.ts";

/** Words that join the parts of a number; after one of them at most this many words are still in it. */
const POINTS = new Set(["point", "decimal", "dot"]);
const AFTER_POINT = 2;
const NUMBER_WORDS = new Set(
  (
    "zero oh nil nought one two three four five six seven eight nine niner ten eleven twelve thirteen fourteen fifteen " +
    "sixteen seventeen eighteen nineteen hundred thousand"
  ).split(" "),
);

/**
 * Whether a breath after these words can only be their end. "CO2 nine" may go on with "point two", "CO forty" with
 * "five": they are waited for a little longer. "CO2 nine point two", "half a turn clockwise" and "scratch that" are over.
 */
export function closes(graph: PhoneGraph, way: Ranked | undefined): boolean {
  const last = way?.steps.at(-1);
  if (!way || !last) return false;
  if (way.steps.slice(-1 - AFTER_POINT, -1).some(({ word }) => POINTS.has(word))) return true;
  const node = graph.arcs[last.arc]?.to;
  const onward = node === undefined ? [] : (graph.leaving[node] ?? []);
  return !onward.some((arc) => {
    const word = graph.arcs[arc]?.word ?? "";
    return NUMBER_WORDS.has(word) || POINTS.has(word);
  });
}
