import { isUsual, readsWhole } from "../measure/quantity.ts";
import type { Context } from "./context.ts";
import { doubt } from "./doubt.ts";
import { readingsOf } from "./pairs.ts";
import type { Piece } from "./piece.ts";

type ReadingPiece = Extract<Piece, { kind: "reading" }>;

// Costs in nats beside the grammar's own, chosen on tests/corpus.
const OUT_OF_BOUNDS = 1.5;
const UNUSUAL = 1.2;
const NOT_ASKED = 0.5;
const NO_QUESTION = 1.2;
/** What is asked to be confirmed is likely said; any other bare name is never an answer. */
const OPEN = 0.4;
const NOT_OPEN = 100;

/** How unlikely a piece is from what it says alone, in nats: 0 where nothing speaks against it. */
export function implausible(piece: Piece): number {
  if (piece.kind === "pair") return Math.max(...readingsOf(piece, null).map(implausible));
  if (piece.kind !== "reading") return 0;
  const { quantity, value, unit, pointed } = piece;
  if (doubt(quantity, value, unit) !== null) return OUT_OF_BOUNDS;
  // "C O two nine point zero" is hardly CO: it is shown in whole numbers.
  if (pointed && readsWhole(quantity)) return OUT_OF_BOUNDS;
  return isUsual(quantity, value, unit) ? 0 : UNUSUAL;
}

/** How little a piece is expected, in nats: what only answers is hardly said where nothing was asked. */
export function unexpected(piece: Piece, { question, open }: Context): number {
  switch (piece.kind) {
    case "stray-number":
      return question ? 0 : NOT_ASKED;
    case "answer":
      if (piece.check !== null) return open.includes(piece.check) ? -OPEN : NOT_OPEN;
      return question ? 0 : NO_QUESTION;
    default:
      return 0;
  }
}

/** The most, in nats, that what is known of the visit says for or against one of several rivals. */
const WEIGHT = 2;

/**
 * How a piece fits what is known of the visit: from -WEIGHT (as expected) over 0 (nothing is known) to WEIGHT (at odds with
 * it). For ranking rivals only: it makes no impossible value possible and no clear one doubtful.
 */
export function againstKnown(piece: Piece, context: Context): number {
  if (piece.kind !== "reading") return 0;
  const gaps = [gapToLast(piece, context), gapToOther(piece, context)].filter((gap) => gap !== null);
  return gaps.length === 0 ? 0 : WEIGHT * (2 * Math.min(1, Math.max(...gaps)) - 1);
}

/** 0 at its last value, 1 from e times that on. */
function gapToLast({ quantity, value, unit }: ReadingPiece, { known, firing }: Context): number | null {
  const last = known.findLast(
    (each) => each.quantity === quantity && (each.unit === unit || unit === null) && each.firing === firing,
  );
  return last ? Math.abs(Math.log((Math.abs(value) + 1) / (Math.abs(last.value) + 1))) : null;
}

/** Volume percent by which O2 and CO2 of one moment may miss each other and still be a pair. */
const PAIR = 3;

/** O2 and CO2 of one firing add up for one gas: 0 on the line, 1 from three percent off it on. */
function gapToOther({ quantity, value }: ReadingPiece, { known, firing, gas }: Context): number | null {
  if (!gas || (quantity !== "co2" && quantity !== "o2")) return null;
  const other = quantity === "co2" ? "o2" : "co2";
  const last = known.findLast((each) => each.quantity === other && each.firing === firing);
  if (!last) return null;
  const { co2Max, o2InAir } = gas;
  const expected =
    quantity === "co2" ? co2Max * (1 - last.value / o2InAir) : o2InAir * (1 - last.value / co2Max);
  return Math.abs(value - expected) / PAIR;
}
