import { onlyUnit, quantityOf, readsWhole } from "../measure/quantity.ts";
import type { Context, Known } from "./context.ts";
import { doubt } from "./doubt.ts";
import { asking, BARE, type Draft, type Heard, type PieceOf, reading } from "./draft.ts";
import type { Item, ReadingItem } from "./item.ts";

type Replacement = Extract<Item, { kind: "replace" }>;

/**
 * A correction mends the last reading in the same phrase that the number can be ("CO2 nine point two, CO forty, no, nine
 * point four" is of the CO2), else the last one logged. Where the number can be read two ways ("nine two"), the quantity
 * mended decides, and if it cannot, the person is asked.
 */
export function mendReading(
  drafts: Draft[],
  island: Heard,
  piece: PieceOf<"replace">,
  context: Context,
): void {
  const ways = [piece, ...island.rivals.map((rival) => rival.piece).filter((way) => way.kind === "replace")];
  const mended = (draft: Draft) => {
    const old = readingIn(draft);
    if (!old) return [];
    return ways
      .filter(({ quantity }) => quantity === null || quantity === old.quantity)
      .map((way) => again(old, way))
      .filter(({ quantity, value, unit }) => doubt(quantity, value, unit) === null);
  };
  const named = (draft: Draft) => piece.quantity === null || readingIn(draft)?.quantity === piece.quantity;
  const fitting = drafts.findLastIndex((draft) => mended(draft).length > 0);
  const at = fitting >= 0 ? fitting : drafts.findLastIndex((draft) => readingIn(draft) && named(draft));
  const draft = drafts[at];
  const old = draft && readingIn(draft);
  if (!draft || !old) {
    drafts.push(restarted(drafts, island, piece) ?? alone(island, ways, context));
    return;
  }
  const said = `${old.said} ${island.said}`;
  if (piece.foreign) {
    const { quantity, firing, condition } = old;
    drafts[at] = asking(said, "mended in a unit that it cannot have", [], {
      asks: "value",
      quantity,
      firing,
      condition,
    });
    return;
  }
  const [best = again(old, piece), ...rivals] = mended(draft);
  const ranked = rivals.map((rival) => ({ piece: rival, behind: 0 }));
  drafts[at] = reading({ ...island, said, rivals: ranked }, best, old.firing);
}

function again(old: ReadingItem, { value, unit, condition }: PieceOf<"replace">): PieceOf<"reading"> {
  const kept = { ...old, flaw: null, follows: false, pointed: false };
  return { ...kept, value, unit: unit ?? old.unit, condition: condition ?? old.condition };
}

/** "CO, sorry, CO2 is nine point two": a false start, not a mend. It takes the place of what was begun. */
function restarted(
  drafts: Draft[],
  island: Heard,
  { value, unit, quantity }: PieceOf<"replace">,
): Draft | null {
  const last = drafts.at(-1);
  if (quantity === null || !last) return null;
  if ("unsure" in last) drafts.pop();
  return reading({ ...island, rivals: [] }, { ...BARE, quantity, value, unit }, null);
}

/** Nothing in this phrase to mend: it is of a reading logged before. The only way to read it, or a question that names them all. */
function alone(island: Heard, ways: readonly PieceOf<"replace">[], context: Context): Draft {
  if (ways[0]?.foreign) return asking(island.said, "a unit that nothing is measured in", []);
  const possible = ways.filter((way) => canMend(way, context));
  const items = (possible.length > 0 ? possible : ways).map(replacement);
  const [only] = items;
  const [first] = ways;
  if (first?.quantity && doubt(first.quantity, first.value, first.unit) !== null) {
    const missing = { asks: "value", quantity: first.quantity, firing: null, condition: null } as const;
    return asking(island.said, `${quantityOf(first.quantity).name} cannot be ${first.value}`, [], missing);
  }
  if (only && items.length === 1) return { item: only };
  return asking(island.said, "could be read in more than one way", items);
}

/** Whether what it would mend can have the number: 9.9 % is mended to 9.4 by "nine four", never to 94. */
function canMend({ value, unit, quantity }: PieceOf<"replace">, { question, known }: Context): boolean {
  if (quantity !== null) return true;
  if (question !== null) {
    if (question.asks !== "value") return true;
    return doubt(question.quantity, value, unit ?? onlyUnit(question.quantity)) === null;
  }
  const old = mendedOf(value, known);
  return old !== null && doubt(old.quantity, value, unit ?? old.unit) === null;
}

/** The reading logged last that a number alone mends: no fraction is of one that is read in whole numbers. */
export function mendedOf(value: number, known: readonly Known[]): Known | null {
  const isWhole = Number.isInteger(value);
  return known.findLast((each) => isWhole || !readsWhole(each.quantity)) ?? null;
}

function replacement({ value, unit, quantity }: PieceOf<"replace">): Replacement {
  if (quantity === null) return { kind: "replace", value, unit };
  return { kind: "replace", value, unit: unit ?? onlyUnit(quantity), quantity };
}

/** The reading that a draft logs, or asks about first. */
export function readingIn(draft: Draft): ReadingItem | null {
  const item = "item" in draft ? draft.item : draft.unsure.candidates[0];
  return item?.kind === "reading" ? item : null;
}
