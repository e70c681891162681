import type { Firing } from "../measure/firing.ts";
import { onlyUnit, quantityOf } from "../measure/quantity.ts";
import { shownNumber } from "../measure/show.ts";
import type { Context } from "./context.ts";
import { doubt, doubtText, nearest } from "./doubt.ts";
import type { Item, Meaning, ReadingItem, Unsure } from "./item.ts";
import type { Found } from "./path.ts";
import type { Piece } from "./piece.ts";

/** An island with the words it came from and how sure it is, 0 to 1. */
export interface Heard extends Found {
  readonly said: string;
  /** Whether only islands, fillers or the ends of the phrase stand beside it. */
  readonly alone: boolean;
  readonly confidence: number;
}

type ReadingPiece = Extract<Piece, { kind: "reading" }>;
type ReplacePiece = Extract<Piece, { kind: "replace" }>;
type AdjustmentPiece = Extract<Piece, { kind: "adjustment" }>;
type Draft = { readonly item: Item; readonly firing?: Firing | null } | { readonly unsure: Unsure };

/**
 * Below this confidence of the ear a number is asked about, not logged. Chosen on tests/bench/hearing.ts: in quiet one
 * right phrase in six is asked, and in noise more than half of the wrong ones are caught.
 */
const ASK_BELOW = 0.8;

/**
 * Turns the islands of one phrase into items in spoken order: repairs mended, firing spread, bounds kept. `confidence` is
 * the ear's, 0 to 1.
 */
export function assemble(
  text: string,
  heard: readonly Heard[],
  context: Context,
  confidence: number,
): Meaning {
  const drafts: Draft[] = [];
  const firings = firingOf(heard);
  heard.forEach((island, i) => {
    const firing = firings[i] ?? null;
    const { piece } = island;
    switch (piece.kind) {
      case "firing":
        // Said of readings it is theirs; said alone it is a change of mode.
        if (firings.every((_, k) => heard[k]?.piece.kind !== "reading")) drafts.push({ item: piece });
        return;
      case "reading":
        drafts.push(reading(island, piece, firing));
        return;
      case "stray-number":
        if (context.question && island.alone) {
          const { quantity, condition, firing: asked } = context.question;
          const answer: ReadingPiece = {
            kind: "reading",
            quantity,
            value: piece.value,
            unit: piece.unit,
            condition,
            cut: false,
          };
          drafts.push(reading({ ...island, rivals: [] }, answer, firing ?? asked));
        } else if (island.alone) drafts.push(unsure(island.said, "a number without a quantity"));
        return;
      case "stray-quantity":
        if (island.alone)
          drafts.push(unsure(island.said, `${quantityOf(piece.quantity).name} without a number`));
        return;
      case "replace":
        mend(drafts, island, piece);
        return;
      case "strike":
        if (drafts.pop() === undefined) drafts.push({ item: { kind: "strike" } });
        return;
      case "adjustment":
        drafts.push(adjustment(island, piece));
        return;
      case "check":
        drafts.push({ item: { kind: "check", item: piece.item, done: true } });
        return;
      case "command":
      case "note":
        drafts.push({ item: piece.kind === "note" ? noteOf(island.said) : piece });
    }
  });
  const kept = confidence < ASK_BELOW ? drafts.map((draft) => askedNumber(draft, text)) : drafts;
  return {
    text,
    items: kept.flatMap((draft) => ("item" in draft ? [draft.item] : [])),
    unsure: kept.flatMap((draft) => ("unsure" in draft ? [draft.unsure] : [])),
  };
}

/** A number that was not heard clearly becomes a question; the rest stays as it is. */
function askedNumber(draft: Draft, phrase: string): Draft {
  if (!("item" in draft)) return draft;
  const { item } = draft;
  if (item.kind !== "reading" && item.kind !== "replace" && item.kind !== "adjustment") return draft;
  const text = item.kind === "reading" ? item.said : phrase;
  return { unsure: { text, reason: "not heard clearly", candidates: [item] } };
}

/** The firing of each island: the last one said before it, or the only one when it is said after all readings. */
function firingOf(heard: readonly Heard[]): (Firing | null)[] {
  const readings = heard.map(({ piece }) => piece.kind === "reading");
  const said = heard.flatMap(({ piece }, i) =>
    piece.kind === "firing" ? [{ i, firing: piece.firing }] : [],
  );
  const [only] = said;
  const last = readings.lastIndexOf(true);
  if (only && said.length === 1 && only.i > last) return heard.map(() => only.firing);
  let current: Firing | null = null;
  return heard.map(({ piece }) => {
    if (piece.kind === "firing") current = piece.firing;
    return current;
  });
}

function reading(island: Heard, piece: ReadingPiece, firing: Firing | null): Draft {
  const { said, confidence } = island;
  const item = readingItem(piece, firing, said, confidence);
  const why = doubt(piece.quantity, piece.value, piece.unit);
  if (why !== null)
    return { unsure: { text: said, reason: doubtText(why, item), candidates: nearest(why, item) } };
  if (piece.cut) return { unsure: { text: said, reason: "cut off after the point", candidates: [item] } };
  if (island.rivals.length === 0) return { item };
  const others = island.rivals
    .filter((rival) => rival.kind === "reading")
    .filter((rival) => doubt(rival.quantity, rival.value, rival.unit) === null)
    .map((rival) => readingItem(rival, firing, said, confidence));
  const reason = `could also be ${island.rivals.map(inShort).join(" or ")}`;
  return { unsure: { text: said, reason, candidates: [item, ...others] } };
}

function readingItem(
  piece: ReadingPiece,
  firing: Firing | null,
  said: string,
  confidence: number,
): ReadingItem {
  const { quantity, value, condition } = piece;
  const unit = piece.unit ?? onlyUnit(quantity);
  return {
    kind: "reading",
    quantity,
    value,
    unit,
    firing: quantityOf(quantity).perFiring ? firing : null,
    condition,
    dial: null,
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
 * A correction mends the last reading in the same phrase that the number can be ("CO2 nine point two, CO forty, no, nine
 * point four" is of the CO2), else the last one logged. Where the number can be read two ways ("nine two"), the quantity
 * mended decides, and if it cannot, the person is asked.
 */
function mend(drafts: Draft[], island: Heard, piece: ReplacePiece): void {
  const ways = [piece, ...island.rivals.filter((rival) => rival.kind === "replace")];
  const mended = (draft: Draft) => {
    const old = readingIn(draft);
    const all = old
      ? ways.map(({ value, unit }): ReadingPiece => ({ ...old, value, unit: unit ?? old.unit, cut: false }))
      : [];
    return all.filter(({ quantity, value, unit }) => doubt(quantity, value, unit) === null);
  };
  const fitting = drafts.findLastIndex((draft) => mended(draft).length > 0);
  const at = fitting >= 0 ? fitting : drafts.findLastIndex((draft) => readingIn(draft));
  const draft = drafts[at];
  const old = draft && readingIn(draft);
  if (!draft || !old) {
    drafts.push(oneOrAsk(island, ways));
    return;
  }
  const said = `${old.said} ${island.said}`;
  const [best = { ...old, value: piece.value, unit: piece.unit ?? old.unit, cut: false }, ...rivals] =
    mended(draft);
  drafts[at] = reading({ ...island, said, rivals }, best, old.firing);
}

/** The reading that a draft logs, or asks about first. */
function readingIn(draft: Draft): ReadingItem | null {
  const item = "item" in draft ? draft.item : draft.unsure.candidates[0];
  return item?.kind === "reading" ? item : null;
}

/** The only way to read it, or a question that names them all. */
function oneOrAsk(island: Heard, ways: readonly Item[]): Draft {
  const [only] = ways;
  if (only && ways.length === 1) return { item: only };
  return {
    unsure: { text: island.said, reason: "could be read in more than one way", candidates: [...ways] },
  };
}

function adjustment(island: Heard, piece: AdjustmentPiece): Draft {
  const item = ({ adjuster, turns }: AdjustmentPiece, way: 1 | -1): Item => ({
    kind: "adjustment",
    adjuster,
    turns: way * Number(turns.toPrecision(6)),
  });
  if (piece.way === null) {
    const candidates = [item(piece, 1), item(piece, -1)];
    return { unsure: { text: island.said, reason: "a turn without a direction", candidates } };
  }
  const ways = [piece, ...island.rivals.filter((rival) => rival.kind === "adjustment")];
  return oneOrAsk(
    island,
    ways.map((way) => item(way, way.way ?? 1)),
  );
}

/** The words after "note", exactly as they were said. */
function noteOf(said: string): Item {
  return { kind: "note", text: said.replace(/^.*?\bnote\b(?:\s+that\b)?[\s:,.-]*/i, "") };
}

function unsure(text: string, reason: string): Draft {
  return { unsure: { text, reason, candidates: [] } };
}
