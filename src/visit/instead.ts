import type { Item, Mend, ReadingItem, Unsure } from "../meaning/item.ts";
import { capital } from "../measure/capital.ts";
import type { Firing } from "../measure/firing.ts";
import { quantityOf, readsWhole, refusal } from "../measure/quantity.ts";
import { shownValue } from "../measure/show.ts";
import { canHave, isMendOfTurn, readingAs, turnsAs } from "./amend.ts";
import { MOST_TURNS } from "./answers.ts";
import { completeReading } from "./assume.ts";
import { MARKS } from "./enter.ts";
import type { Adjustment, ItemBody, Reading } from "./entry.ts";
import type { VisitState } from "./state.ts";

/** What a correction by hand comes to, or why it cannot be: one sentence, and what may have been meant. */
export type Instead =
  | { readonly ok: true; readonly body: ItemBody }
  | { readonly ok: false; readonly problem: string; readonly candidates: readonly Item[] };

export function cannot(problem: string, candidates: readonly Item[] = []): Extract<Instead, { ok: false }> {
  return { ok: false, problem, candidates };
}

export function notClear({ reason, candidates }: Unsure): Extract<Instead, { ok: false }> {
  return cannot(`${capital(reason)}.`, candidates);
}

/**
 * What an old item becomes with what is said of it; what is not said stays as it was. `before` is the visit before it: what
 * a new quantity or screw needs to be assumed is assumed from there.
 */
export function instead(old: ItemBody, item: Item, before: VisitState): Instead {
  switch (item.kind) {
    case "reading":
      return readingInstead(item, old, before);
    case "adjustment": {
      const adjuster = item.adjuster ?? (old.kind === "adjustment" ? old.adjuster : firingAt(old, before));
      if (!adjuster) return cannot("Say which screw: high or low.");
      const origin =
        item.adjuster || old.kind !== "adjustment"
          ? { adjuster: item.adjuster ? ("said" as const) : ("assumed" as const) }
          : old.origin;
      return made({ kind: "adjustment", adjuster, turns: item.turns, origin });
    }
    case "firing":
      if (old.kind === "reading") return mended(old, { kind: "mend", firing: item.firing }, before);
      if (old.kind === "adjustment") return mendedTurn(old, { kind: "mend", adjuster: item.firing });
      return made({ kind: "firing", firing: item.firing });
    case "replace":
      return numberInstead(item, old, before);
    case "mend":
      if (old.kind === "reading") return mended(old, item, before);
      if (old.kind === "adjustment") return mendedTurn(old, item);
      if (old.kind === "firing" && item.firing) return made({ kind: "firing", firing: item.firing });
      return cannot("That is neither a reading nor a turn.");
    case "note":
      return made({ kind: "note", text: item.text });
    case "check":
      return made({ kind: "check", item: item.item, done: item.done });
    case "command": {
      const mark = MARKS[item.command];
      return mark ? made({ kind: "mark", mark }) : cannot("That is a command, not what was said.");
    }
    case "strike":
      return cannot("Strike it instead.");
  }
}

/** Where the burner was when it was said. */
function firingAt(old: ItemBody, before: VisitState): Firing | null {
  const own = old.kind === "reading" || old.kind === "firing" ? old.firing : null;
  return own ?? before.firing?.firing ?? null;
}

function made(body: ItemBody): Instead {
  return { ok: true, body };
}

function readingInstead(item: ReadingItem, old: ItemBody, before: VisitState): Instead {
  const { quantity, value } = item;
  if (old.kind !== "reading" || old.quantity !== quantity) {
    // A firing that was said of it is still said.
    const said = old.kind === "reading" && old.origin.firing === "said" ? old.firing : null;
    const firing = item.firing ?? (quantityOf(quantity).perFiring ? said : null);
    const reading = completeReading({ ...item, firing }, before);
    return reading ? made(reading) : outOfBounds(item);
  }
  const origin = { ...old.origin, value: "said" as const };
  const valued = { ...old, value, dial: item.dial ?? old.dial, origin };
  const { unit, condition, firing } = item;
  const fields: Omit<Mend, "kind"> = {
    ...(unit && { unit }),
    ...(condition && { condition }),
    ...(firing && { firing }),
  };
  return bounded(readingAs(valued, { kind: "mend", ...fields }, before));
}

function mended(old: Reading, item: Mend, before: VisitState): Instead {
  if (isMendOfTurn(item)) return cannot("That is a reading, not a turn.");
  if (!canHave(item, old)) return cannot(`${quantityOf(old.quantity).name} cannot have that.`);
  return bounded(readingAs(old, item, before));
}

function mendedTurn(old: Adjustment, item: Mend): Instead {
  if (!isMendOfTurn(item)) return cannot("That is a turn, not a reading.");
  const turns = turnsAs(old.turns, item);
  const { adjuster } = item;
  return made({ ...old, turns, ...(adjuster && { adjuster, origin: { adjuster: "said" } }) });
}

/** "No, nine point four", "no, three quarters". */
function numberInstead(item: Extract<Item, { kind: "replace" }>, old: ItemBody, before: VisitState): Instead {
  const { value, unit, quantity } = item;
  if (quantity !== undefined) {
    const rest = { firing: null, condition: null, dial: null, said: "", confidence: 1 };
    return readingInstead({ kind: "reading", quantity, value, unit, ...rest }, old, before);
  }
  if (old.kind === "reading") {
    const { unit: known } = old;
    const bare = { quantity: old.quantity, value, unit: unit ?? known };
    if (readsWhole(old.quantity) && !Number.isInteger(value))
      return cannot(`${quantityOf(old.quantity).name} has no decimals.`);
    const origin = {
      ...old.origin,
      value: "said" as const,
      unit: unit ? ("said" as const) : old.origin.unit,
    };
    return bounded({ ...old, ...bare, origin });
  }
  if (old.kind !== "adjustment") return cannot("Say what the number is of.");
  if (unit !== null || !(value > 0 && value <= MOST_TURNS))
    return cannot(`A turn is more than none and at most ${MOST_TURNS}.`);
  return made({ ...old, turns: Math.sign(old.turns) * value });
}

function bounded(reading: Reading): Instead {
  return refusal(reading.quantity, reading.value, reading.unit) === null
    ? made(reading)
    : outOfBounds(reading);
}

function outOfBounds({ quantity, value, unit }: Pick<ReadingItem, "quantity" | "value" | "unit">): Instead {
  return cannot(`${quantityOf(quantity).name} cannot be ${shownValue(value, unit)}.`);
}
