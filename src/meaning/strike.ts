import type { Draft, PieceOf } from "./draft.ts";
import type { Item } from "./item.ts";
import { readingIn } from "./mend.ts";
import { turnIn } from "./turns.ts";

/**
 * Strikes the last thing of this phrase, or its last turn or reading of a quantity where that was said, else of the visit.
 * "That was wrong, delete it" is one strike.
 */
export function strike(drafts: Draft[], { last, quantity }: PieceOf<"strike">): void {
  const before = drafts.at(-1);
  if (before && "item" in before && before.item.kind === "strike") return;
  const struck = drafts.findLastIndex((draft) => {
    if (quantity !== null) return readingIn(draft)?.quantity === quantity;
    if (last === "co-alarm") return "item" in draft && isAlarm(draft.item);
    return last === null || turnIn(draft) !== null;
  });
  if (struck >= 0) drafts.splice(struck, 1);
  else drafts.push({ item: { kind: "strike", ...(last && { last }), ...(quantity && { quantity }) } });
}

function isAlarm(item: Item): boolean {
  return item.kind === "command" && item.command === "co-alarm";
}
