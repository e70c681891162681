import type { Condition, Firing } from "../measure/firing.ts";
import { isUsual, onlyUnit, QUANTITIES, type QuantityId, quantityOf } from "../measure/quantity.ts";
import { shownNumber } from "../measure/show.ts";
import type { Unit } from "../measure/unit.ts";
import type { Context } from "./context.ts";
import { doubt, doubtText, nearest } from "./doubt.ts";
import type { Found } from "./found.ts";
import type { Item, ReadingItem, Unsure } from "./item.ts";
import type { Piece } from "./piece.ts";

/** An island with the words it came from and how sure it is, 0 to 1. */
export interface Heard extends Found {
  readonly said: string;
  /** Of a note, the words after those that begin it. */
  readonly note: string | null;
  /** Whether only islands, fillers or the ends of the phrase stand beside it, on either side. */
  readonly after: boolean;
  readonly before: boolean;
  /** The same, where a comma counts as an end. */
  readonly apart: boolean;
  /** How sure the ear was of its words, and how sure it is over all. */
  readonly heard: number;
  readonly confidence: number;
}

/** The words of an island read as if a quantity had been said before them; null where that is no reading. */
export type Reread = (quantity: QuantityId, island: Found) => PieceOf<"reading"> | null;

/** What the assembly needs beside the islands. */
export interface Setting extends Context {
  readonly reread: Reread;
  /** The firing that was asked about, where the phrase is the answer. */
  readonly asked: Firing | null;
}

export type PieceOf<K extends Piece["kind"]> = Extract<Piece, { kind: K }>;

/** One thing to log, or one to ask about. */
export type Draft = { readonly item: Item } | { readonly unsure: Unsure };

export function asking(
  text: string,
  reason: string,
  candidates: Item[],
  question?: Unsure["question"],
): Draft {
  return { unsure: question ? { text, reason, candidates, question } : { text, reason, candidates } };
}

/** A reading to log, or, where its value is flawed, doubtful or has a rival, to ask about. */
export function reading(island: Heard, piece: PieceOf<"reading">, spread: Firing | null): Draft {
  const { said, confidence } = island;
  const firing = piece.firing ?? spread;
  const item = readingItem(piece, firing, said, confidence);
  const missing = {
    asks: "value",
    quantity: piece.quantity,
    firing: item.firing,
    condition: piece.condition,
    ...(piece.dial && { dial: piece.dial }),
  } as const;
  const { name } = quantityOf(piece.quantity);
  if (piece.flaw === "inexact" || piece.flaw === "foreign")
    return asking(
      said,
      piece.flaw === "inexact" ? `no exact value of ${name}` : `${name} is not measured in that unit`,
      [],
      missing,
    );
  const why = doubt(piece.quantity, piece.value, piece.unit);
  if (why !== null) {
    const candidates = nearest(why, item);
    return asking(said, doubtText(why, item), candidates, candidates.length === 0 ? missing : undefined);
  }
  if (piece.flaw === "cut") return asking(said, "cut off after the point", [item]);
  if (piece.flaw === "unnamed") return asking(said, "a number without a quantity", [item]);
  if (piece.flaw === "none") return asking(said, `${name} of none at all`, [item]);
  if (island.rivals.length === 0) return { item };
  const rivals = island.rivals.map((rival) => rival.piece);
  const others = rivals
    .filter((rival) => rival.kind === "reading")
    .filter((rival) => rival.flaw === null && doubt(rival.quantity, rival.value, rival.unit) === null)
    .map((rival) => readingItem(rival, firing, said, confidence));
  const reason = `could also be ${rivals.map(inShort).join(" or ")}`;
  return asking(said, reason, [item, ...others]);
}

function readingItem(
  piece: PieceOf<"reading">,
  firing: Firing | null,
  said: string,
  confidence: number,
): ReadingItem {
  const { quantity, value, condition, dial } = piece;
  const unit = piece.unit ?? onlyUnit(quantity);
  return {
    kind: "reading",
    quantity,
    value,
    unit,
    firing: quantityOf(quantity).perFiring ? firing : null,
    condition,
    dial,
    said,
    confidence,
  };
}

function inShort(piece: Piece): string {
  switch (piece.kind) {
    case "reading":
      return `${quantityOf(piece.quantity).name} ${shownNumber(piece.value)}`;
    case "stray-quantity":
      return `${quantityOf(piece.quantity).name} without a number`;
    case "stray-number":
      return `the number ${shownNumber(piece.value)}`;
    default:
      return `a ${piece.kind}`;
  }
}

/**
 * A number without its quantity: asked of what, with the one quantity that it can be, or up to two that its unit leaves.
 */
export function strayNumber(
  island: Heard,
  piece: PieceOf<"stray-number">,
  firing: Firing | null,
  { reread }: Setting,
): Draft {
  const { said, confidence } = island;
  const { value, unit } = piece;
  // "Nine two" is 9.2 of CO2, as whoever says it without its name hopes; "ninety two" cannot be.
  const percent = unit === null && value >= 10 ? reread("co2", island) : null;
  if (percent && isUsual("co2", percent.value, null))
    return asking(said, "a number without a quantity", [readingItem(percent, firing, said, confidence)]);
  const ids = quantitiesOf(value, unit);
  const candidates = (unit === null && ids.length > 1 ? [] : ids.slice(0, 2)).map((quantity) => {
    const named = { ...BARE, quantity, value, unit } as const;
    return readingItem(named, firing, said, confidence);
  });
  return asking(said, "a number without a quantity", candidates, { asks: "quantity", value, unit });
}

/** A reading of which nothing is said but the quantity, its value and unit. */
export const BARE = {
  kind: "reading",
  condition: null,
  dial: null,
  flaw: null,
  firing: null,
  follows: false,
  pointed: false,
} as const;

/** Never said without their names or units: lengths and times are talk. */
const ALWAYS_NAMED: ReadonlySet<QuantityId> = new Set(["altitude", "gas-meter-time"]);

/** What a number can be of: those of which it is usual, in the unit that nobody has to say if none was, else any. */
function quantitiesOf(value: number, unit: Unit | null): QuantityId[] {
  const possible = QUANTITIES.filter(({ id, units }) => {
    if (unit === null ? ALWAYS_NAMED.has(id) : !units.includes(unit)) return false;
    return doubt(id, value, unit) === null;
  }).map(({ id }) => id);
  const usual = possible.filter((id) => isUsual(id, value, unit ?? quantityOf(id).units[0]));
  return usual.length > 0 ? usual : possible;
}

/** "CO2 nine point two on high and eight point nine on low": the second number is of the same quantity. */
export function carried(
  island: Heard,
  firing: Firing | null,
  drafts: readonly Draft[],
  { reread }: Setting,
): Draft | null {
  const old = pairedWith(firing, drafts);
  if (!old) return null;
  const piece = reread(old.quantity, island);
  if (!piece) return null;
  const { condition, unit } = old;
  return reading({ ...island, rivals: [] }, { ...piece, condition, unit: piece.unit ?? unit }, firing);
}

/** The static or dynamic of the reading that this one is paired with, where it is of the same quantity. */
export function carriedCondition(
  { quantity }: PieceOf<"reading">,
  firing: Firing | null,
  drafts: readonly Draft[],
): Condition | null {
  const old = pairedWith(firing, drafts);
  return old?.quantity === quantity ? old.condition : null;
}

/** The reading just before, where it is of the other firing. */
function pairedWith(firing: Firing | null, drafts: readonly Draft[]): ReadingItem | null {
  const last = drafts.at(-1);
  const item = last && "item" in last && last.item.kind === "reading" ? last.item : null;
  return item?.firing && firing && item.firing !== firing ? item : null;
}

export function strayQuantity(
  { said }: Heard,
  piece: PieceOf<"stray-quantity">,
  firing: Firing | null,
): Draft {
  const { quantity, condition } = piece;
  const { name, perFiring } = quantityOf(quantity);
  return asking(said, `${name} without a number`, [], {
    asks: "value",
    quantity,
    firing: perFiring ? firing : null,
    condition,
  });
}
