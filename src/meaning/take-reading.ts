import type { Firing } from "../measure/firing.ts";
import type { Cover } from "./cover.ts";
import {
  asking,
  carriedCondition,
  type Draft,
  type Heard,
  type PieceOf,
  reading,
  type Setting,
} from "./draft.ts";
import { readingIn } from "./mend.ts";
import { spelledOut } from "./spelled.ts";

/** Logs a reading with the firing and condition said around it, or asks where the words around it leave a doubt. */
export function takeReading(
  drafts: Draft[],
  island: Heard,
  piece: PieceOf<"reading">,
  firing: Firing | null,
  cover: Cover,
  heard: readonly Heard[],
  context: Setting,
): void {
  const last = drafts.at(-1);
  const alone = island.before && island.after;
  // "It drops to six when firing", said of the gas pressure just read, in this phrase or right before it.
  const followed = last ? readingIn(last)?.quantity : alone ? context.known.at(-1)?.quantity : undefined;
  if (piece.follows && followed !== "gas-pressure-inlet") return;
  const draft = reading(
    island,
    { ...piece, condition: piece.condition ?? carriedCondition(piece, firing, drafts) },
    firing,
  );
  const item = readingIn(draft);
  const bare = heard.find(
    (other) => other.piece.kind === "firing" && other.piece.bare && other.start === island.end,
  );
  const at = heard.indexOf(island);
  const names = heard[at + 1]?.piece.kind === "stray-number" ? heard[at - 1] : undefined;
  const elsewhere = names?.piece.kind === "stray-quantity" && names.piece.quantity !== piece.quantity;
  // "CO2 and CO, nine two and forty": which number is whose?
  if (elsewhere && "item" in draft) drafts.push(asking(island.said, "two names in a row", [draft.item]));
  else if (cover === "asked" && "item" in draft)
    drafts.push(asking(island.said, "asked as a question", [draft.item]));
  else if ("item" in draft && item && bare?.piece.kind === "firing" && bare.before && isLast(bare, heard)) {
    const { firing: meant } = bare.piece;
    // "CO2 eight point six low": low fire, or too low? At high fire nobody knows.
    if ((context.firing ?? meant) === meant && (item.firing ?? meant) === meant) {
      drafts.push({ item: { ...item, firing: meant } });
      return;
    }
    const reason = `"${meant}" may be the firing or a judgement`;
    drafts.push(asking(`${island.said} ${meant}`, reason, [{ ...item, firing: meant }, item]));
  } else drafts.push(draft);
}

function isLast(island: Heard, heard: readonly Heard[]): boolean {
  return heard.every(({ start }) => start <= island.start);
}

/** "CO forty, four zero": the digits of the reading just said, to make it sure, as our own voice says them; and its unit. */
export function spells(
  drafts: Draft[],
  { said, start }: Heard,
  { unit }: PieceOf<"stray-number">,
  heard: readonly Heard[],
): boolean {
  const last = drafts.at(-1);
  const item = last ? readingIn(last) : null;
  const before = heard.find(({ end }) => end === start);
  if (!item || before?.said !== item.said || spelledOut(said, unit !== null) !== item.value) return false;
  if (unit === null || unit === item.unit) return true;
  if (item.unit !== null || !last || !("item" in last)) return false;
  drafts.splice(-1, 1, { item: { ...item, unit } });
  return true;
}
