import { CHECKS, type Check, Condition, type Dial, Firing } from "../measure/firing.ts";
import { QUANTITY_IDS, type QuantityId } from "../measure/quantity.ts";
import { UNITS, type Unit } from "../measure/unit.ts";
import { type Counted, count } from "./count.ts";
import { COMMANDS, type Command, STRIKABLE, type Strikable } from "./item.ts";

/** Which way a screw was turned: 1 is clockwise; "same" as the turn before, or "opposite" to it; null where it was not said. */
export type Way = 1 | -1 | "same" | "opposite" | null;

/** Why the words beside it are not for the log; "resume" ends that, "number" is only a count of something else. */
export type AsideKind = "plan" | "quote" | "question" | "not" | "number" | "resume";

/** What of its clause an aside covers. */
export type Reach = "after" | "before" | "around";

/** What one island says, before it is set beside the others. */
export type Piece =
  /** `bare`: "high" alone, which may say something else than the firing. `mends`: "sorry, low fire". `held`: "on low fire", no switch. */
  | {
      readonly kind: "firing";
      readonly firing: Firing;
      readonly bare: boolean;
      readonly mends: boolean;
      readonly held: boolean;
    }
  | {
      readonly kind: "reading";
      readonly quantity: QuantityId;
      readonly value: number;
      /** Whether its decimals were said, even where they are zero. */
      readonly pointed: boolean;
      readonly unit: Unit | null;
      readonly condition: Condition | null;
      readonly dial: Dial | null;
      readonly flaw: Flaw | null;
      /** Said between the name and the number. */
      readonly firing: Firing | null;
      /** Only after an inlet gas pressure: "… dropping to six and a half". */
      readonly follows: boolean;
    }
  /** "9.2/40": CO2 in percent and CO in ppm. */
  | { readonly kind: "pair"; readonly co2: number; readonly co: number }
  /** `turns` has no sign yet. `continues`: only right after another turn. `mends`: "no, low screw a tenth out". */
  | {
      readonly kind: "adjustment";
      readonly adjuster: Firing | null;
      readonly turns: number;
      readonly way: Way;
      readonly continues: boolean;
      readonly mends: boolean;
    }
  | {
      readonly kind: "replace";
      readonly value: number;
      readonly unit: Unit | null;
      readonly condition: Condition | null;
      /** Said in a unit that nothing here is measured in. */
      readonly foreign: boolean;
      readonly quantity: QuantityId | null;
    }
  | { readonly kind: "replace-turn"; readonly turns: number; readonly way: Way }
  /** What was said instead, without a number: of a reading or a turn before it. */
  | {
      readonly kind: "mend";
      readonly unit: Unit | null;
      readonly condition: Condition | null;
      readonly firing: Firing | null;
      readonly way: Way;
      readonly adjuster: Firing | null;
    }
  | { readonly kind: "strike"; readonly last: Strikable | null; readonly quantity: QuantityId | null }
  | { readonly kind: "note" }
  /** `asked`: the words may say something else, so it is not logged unasked. */
  | { readonly kind: "check"; readonly item: Check; readonly done: boolean; readonly asked: boolean }
  | { readonly kind: "command"; readonly command: Command }
  /** `check`: the bare name of what was asked to be confirmed. */
  | {
      readonly kind: "answer";
      readonly way: Way;
      readonly adjuster: Firing | null;
      readonly check: Check | null;
    }
  | { readonly kind: "aside"; readonly aside: AsideKind; readonly reach: Reach }
  | { readonly kind: "stray-quantity"; readonly quantity: QuantityId; readonly condition: Condition | null }
  | { readonly kind: "stray-number"; readonly value: number; readonly unit: Unit | null };

/**
 * Why the number of a reading is none, or not surely its own: cut off after the point, none at all ("no CO"), "over",
 * "between", in volts, or said without its name.
 */
export type Flaw = "cut" | "none" | "inexact" | "foreign" | "unnamed";

/**
 * Where in a phrase an island may stand: at the head of a clause, beside other meaning, with meaning or a comma on both
 * sides (alone), or with meaning (only).
 */
export type Place = "lead" | "beside" | "alone" | "only";

export interface Said {
  readonly piece: Piece;
  readonly place: Place | null;
}

/** What an island says, and how unlikely that is on its own, in nats. */
export interface Judged extends Said {
  readonly implausible: number;
}

/** Reads the literal tags of one island. Null where they say nothing complete: a fault of the grammar, not of the speaker. */
export function pieceOf(tags: readonly string[]): Said | null {
  const { fields, ...counted } = count(tags);
  // "static 7 running" is two readings.
  if (new Set(tags.filter((tag) => tag.startsWith("condition "))).size > 1) return null;
  const piece = meaningOf(fields, counted);
  const place = fields.has("lead")
    ? "lead"
    : fields.has("only")
      ? "only"
      : fields.has("alone")
        ? "alone"
        : fields.has("beside")
          ? "beside"
          : null;
  return piece && { piece, place };
}

type Fields = Counted["fields"];

function meaningOf(fields: Fields, counted: Omit<Counted, "fields">): Piece | null {
  const { number, pointed, dial, turns } = counted;
  const unit = oneOf(UNITS, fields.get("unit"));
  const condition = oneOf(Condition.options, fields.get("condition"));
  const quantity = oneOf(QUANTITY_IDS, fields.get("quantity"));
  const firing = oneOf(Firing.options, fields.get("firing"));

  const aside = oneOf(ASIDES, fields.get("aside"));
  if (aside) return { kind: "aside", aside, reach: oneOf(REACHES, fields.get("reach")) ?? "after" };
  if (fields.has("note")) return { kind: "note" };
  if (fields.has("strike")) return { kind: "strike", last: oneOf(STRIKABLE, fields.get("last")), quantity };
  const adjuster = oneOf(Firing.options, fields.get("adjuster"));
  const way = wayOf(fields.get("way"));
  if (fields.has("mend")) {
    const mend = { kind: "mend", unit, condition, firing, way, adjuster } as const;
    // "no, degrees" says nothing new.
    return (unit ?? condition ?? firing ?? way ?? adjuster) ? mend : null;
  }
  if (fields.has("replace") && fields.has("turned")) return { kind: "replace-turn", turns, way };
  if (fields.has("replace"))
    return number === null
      ? null
      : {
          kind: "replace",
          value: number,
          unit,
          condition,
          quantity,
          foreign: fields.get("flaw") === "foreign",
        };
  const item = oneOf(CHECKS, fields.get("check"));
  const co2 = fields.get("pair");
  if (co2 !== undefined) return number === null ? null : { kind: "pair", co2: Number(co2), co: number };
  if (fields.has("answer")) return { kind: "answer", way, adjuster, check: item };
  if (fields.has("stray")) {
    if (quantity) return { kind: "stray-quantity", quantity, condition };
    return number === null ? null : { kind: "stray-number", value: number, unit };
  }
  if (fields.has("turned")) {
    return {
      kind: "adjustment",
      adjuster,
      turns,
      way,
      continues: fields.has("continues"),
      mends: fields.has("mends"),
    };
  }
  if (quantity && number !== null) {
    const flaw = oneOf(FLAWS, fields.get("flaw"));
    const follows = fields.has("follows");
    return {
      kind: "reading",
      quantity,
      value: number,
      pointed,
      unit,
      condition,
      dial,
      flaw,
      firing,
      follows,
    };
  }
  if (firing)
    return {
      kind: "firing",
      firing,
      bare: fields.has("bare"),
      mends: fields.has("mends"),
      held: fields.has("on"),
    };
  if (item) return { kind: "check", item, done: !fields.has("undone"), asked: fields.has("asked") };
  const command = oneOf(COMMANDS, fields.get("command"));
  return command ? { kind: "command", command } : null;
}

const ASIDES: readonly AsideKind[] = ["plan", "quote", "question", "not", "number", "resume"];
const REACHES: readonly Reach[] = ["after", "before", "around"];
const FLAWS: readonly Flaw[] = ["cut", "none", "inexact", "foreign"];

function wayOf(tag: string | undefined): Way {
  switch (tag) {
    case "+":
      return 1;
    case "-":
      return -1;
    case "same":
    case "opposite":
      return tag;
    default:
      return null;
  }
}

function oneOf<T extends string>(known: readonly T[], value: string | undefined): T | null {
  return known.find((one) => one === value) ?? null;
}

/** The same meaning, for telling rivals from repeats. */
export function samePiece(a: Piece, b: Piece): boolean {
  return a === b || (a.kind === b.kind && JSON.stringify(a) === JSON.stringify(b));
}
