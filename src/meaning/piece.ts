import { CHECKS, type Check, Condition, Firing } from "../measure/firing.ts";
import { QUANTITY_IDS, type QuantityId } from "../measure/quantity.ts";
import { UNITS, type Unit } from "../measure/unit.ts";
import { COMMANDS, type Command } from "./item.ts";
import { isNumberTag, numberOf } from "./number.ts";

/** What one island says, before it is set beside the others. */
export type Piece =
  | { readonly kind: "firing"; readonly firing: Firing }
  | {
      readonly kind: "reading";
      readonly quantity: QuantityId;
      readonly value: number;
      readonly unit: Unit | null;
      readonly condition: Condition | null;
      /** It ends in "point": the decimals were not heard. */
      readonly cut: boolean;
    }
  /** `turns` has no sign yet; `way` null where it was not said. */
  | {
      readonly kind: "adjustment";
      readonly adjuster: Firing | null;
      readonly turns: number;
      readonly way: 1 | -1 | null;
    }
  | { readonly kind: "replace"; readonly value: number; readonly unit: Unit | null }
  | { readonly kind: "strike" }
  | { readonly kind: "note" }
  | { readonly kind: "check"; readonly item: Check }
  | { readonly kind: "command"; readonly command: Command }
  | { readonly kind: "stray-quantity"; readonly quantity: QuantityId; readonly condition: Condition | null }
  | { readonly kind: "stray-number"; readonly value: number; readonly unit: Unit | null };

/** Reads the literal tags of one island. Null where they say nothing complete: a fault of the grammar, not of the speaker. */
export function pieceOf(tags: readonly string[]): Piece | null {
  const fields = new Map<string, string>();
  let turns = 0;
  for (const tag of tags) {
    if (isNumberTag(tag)) continue;
    const space = tag.indexOf(" ");
    const name = space < 0 ? tag : tag.slice(0, space);
    const value = space < 0 ? "" : tag.slice(space + 1);
    if (name === "turn") turns += Number(value);
    else fields.set(name, value);
  }
  const number = numberOf(tags);
  const unit = oneOf(UNITS, fields.get("unit"));
  const condition = oneOf(Condition.options, fields.get("condition"));
  const quantity = oneOf(QUANTITY_IDS, fields.get("quantity"));

  if (fields.has("note")) return { kind: "note" };
  if (fields.has("strike")) return { kind: "strike" };
  if (fields.has("replace")) return number === null ? null : { kind: "replace", value: number, unit };
  if (fields.has("stray")) {
    if (quantity) return { kind: "stray-quantity", quantity, condition };
    return number === null ? null : { kind: "stray-number", value: number, unit };
  }
  if (fields.has("way")) {
    const way = fields.get("way");
    return {
      kind: "adjustment",
      adjuster: oneOf(Firing.options, fields.get("adjuster")),
      turns: turns + (number ?? 0),
      way: way === "+" ? 1 : way === "-" ? -1 : null,
    };
  }
  if (quantity && number !== null) {
    return { kind: "reading", quantity, value: number, unit, condition, cut: fields.has("cut") };
  }
  const firing = oneOf(Firing.options, fields.get("firing"));
  if (firing) return { kind: "firing", firing };
  const item = oneOf(CHECKS, fields.get("check"));
  if (item) return { kind: "check", item };
  const command = oneOf(COMMANDS, fields.get("command"));
  return command ? { kind: "command", command } : null;
}

function oneOf<T extends string>(known: readonly T[], value: string | undefined): T | null {
  return known.find((one) => one === value) ?? null;
}

/** The same meaning, for telling rivals from repeats. */
export function samePiece(a: Piece, b: Piece): boolean {
  return a.kind === b.kind && JSON.stringify(a) === JSON.stringify(b);
}
