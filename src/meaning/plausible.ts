import { isUsual } from "../measure/quantity.ts";
import type { Context } from "./context.ts";
import { doubt } from "./doubt.ts";
import type { Piece } from "./piece.ts";

type ReadingPiece = Extract<Piece, { kind: "reading" }>;

// Costs in nats beside the grammar's own, chosen on tests/corpus.
const OUT_OF_BOUNDS = 1.5;
export const UNUSUAL = 1.2;
/** The most that any one piece of context may say against a reading. */
const AT_ODDS = 1.6;

/** How unlikely a piece is from what it says and what is known of the visit, in nats: 0 where nothing speaks against it. */
export function implausible(piece: Piece, context: Context): number {
  switch (piece.kind) {
    case "reading":
      return reading(piece, context);
    case "stray-number":
      return context.question ? 0 : 0.5;
    default:
      return 0;
  }
}

function reading(piece: ReadingPiece, context: Context): number {
  const { quantity, value, unit } = piece;
  if (doubt(quantity, value, unit) !== null) return OUT_OF_BOUNDS;
  const unusual = isUsual(quantity, value, unit) ? 0 : UNUSUAL;
  return unusual + Math.max(farFromLast(piece, context), againstOther(piece, context));
}

/** A value ten times its last one is less likely than one near it. */
function farFromLast({ quantity, value, unit }: ReadingPiece, { known, firing }: Context): number {
  const last = known.findLast(
    (each) => each.quantity === quantity && (each.unit === unit || unit === null) && each.firing === firing,
  );
  if (!last) return 0;
  const ratio = Math.abs(Math.log((Math.abs(value) + 1) / (Math.abs(last.value) + 1)));
  return Math.min(AT_ODDS, ratio);
}

/** O2 and CO2 of one firing add up for one gas: a reading three points off the line is at odds. */
function againstOther({ quantity, value }: ReadingPiece, { known, firing, gas }: Context): number {
  if (!gas || (quantity !== "co2" && quantity !== "o2")) return 0;
  const other = quantity === "co2" ? "o2" : "co2";
  const last = known.findLast((each) => each.quantity === other && each.firing === firing);
  if (!last) return 0;
  const expected =
    quantity === "co2"
      ? gas.co2Max * (1 - last.value / gas.o2InAir)
      : gas.o2InAir * (1 - last.value / gas.co2Max);
  return Math.min(AT_ODDS, Math.abs(value - expected) / 3);
}
