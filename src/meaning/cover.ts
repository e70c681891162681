import type { Found } from "./found.ts";
import type { AsideKind } from "./piece.ts";
import type { Word } from "./words.ts";

/** What keeps an island out of the log: an aside beside it, or a question mark after its clause. */
export type Cover = Exclude<AsideKind, "number" | "resume"> | "asked" | null;

/** An aside reaches over this many words of talk ("don't touch that old screw"), not over a whole story. */
const REACH = 4;

/**
 * For each island, in spoken order, the aside that covers it. "If", "the manual says" cover what follows in their clause;
 * "… is the limit" what came before in it. A clause ends at a break with something said since the aside, or at "but".
 */
export function coversOf(found: readonly Found[], words: readonly Word[]): Cover[] {
  const covers: Cover[] = found.map(({ end }) => (words[end - 1]?.asked ? "asked" : null));
  let scope: AsideKind | null = null;
  let since = 0;
  let reached = false;
  let clause = 0;
  let at = 0;
  found.forEach(({ start, end, piece }, i) => {
    for (let k = at; k <= start; k += 1) {
      if (words[k]?.afterBreak) {
        if (reached || since > 0) scope = null;
        if (k > 0) clause = i;
      }
      if (k < start) since += 1;
    }
    at = Math.max(at, end);
    // A break inside the island itself ends no clause: the grammar has crossed it.
    if (piece.kind !== "aside") {
      if (scope !== null && since <= REACH) covers[i] = coverOf(scope) ?? covers[i] ?? null;
      reached = true;
      return;
    }
    const { aside, reach } = piece;
    if (aside === "number") return;
    if (aside === "resume") {
      scope = null;
      clause = i;
      return;
    }
    if (reach !== "after") {
      for (let k = clause; k < i; k += 1) if (found[k]?.piece.kind !== "aside") covers[k] = coverOf(aside);
    }
    if (reach !== "before" && (scope === null || aside !== "not")) {
      scope = aside;
      since = 0;
      reached = false;
    }
  });
  return covers;
}

function coverOf(aside: AsideKind): Cover {
  return aside === "number" || aside === "resume" ? null : aside;
}
