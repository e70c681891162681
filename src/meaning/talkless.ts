import type { Found } from "./found.ts";
import type { Lattice } from "./lattice.ts";

/**
 * For each place between words whether, going one way from it, the first thing met is a piece of meaning or the end of the
 * phrase: fillers, asides and strays are passed over, any other word means that this was talk. With `breaks`, a comma is an
 * end too.
 */
export function talkless(
  { words, passes, nodeAt, wordAt }: Lattice,
  found: readonly Found[],
  way: 1 | -1,
  breaks: boolean,
): boolean[] {
  const last = words.length;
  const free: boolean[] = new Array(last + 1).fill(false);
  free[way === 1 ? last : 0] = true;
  let next = way === 1 ? found.length - 1 : 0;
  for (let k = 0; k < last; k += 1) {
    const at = way === 1 ? last - 1 - k : k;
    const island = found[next];
    if (island?.start === at) {
      next -= way;
      const to = way === 1 ? at : island.end;
      const from = way === 1 ? island.end : at;
      if (!isPassedOver(island)) free[to] = isMeaning(island) || free[to] === true;
      else if (free[from]) free[to] = true;
    }
    for (const pass of passes[nodeAt[at] ?? 0] ?? []) {
      const end = wordAt[pass.to] ?? last;
      if (free[way === 1 ? end : at]) free[way === 1 ? at : end] = true;
    }
    if (breaks && words[at]?.afterBreak) free[at] = true;
  }
  return free;
}

function isMeaning({ piece }: Found): boolean {
  return piece.kind !== "aside" && piece.kind !== "answer";
}

/** What is neither meaning nor talk: a stray, a bare "high", an aside that only says how the rest is meant. */
function isPassedOver({ piece }: Found): boolean {
  switch (piece.kind) {
    case "stray-number":
    case "stray-quantity":
      return true;
    case "firing":
      return piece.bare;
    case "aside":
      return piece.aside !== "number";
    default:
      return false;
  }
}
