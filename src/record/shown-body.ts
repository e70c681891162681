import { harmless } from "../measure/harmless.ts";
import { quantityOf } from "../measure/quantity.ts";
import { shownValue } from "../measure/show.ts";
import type { Adjustment, ItemBody, Reading } from "../visit/entry.ts";
import { CHECK_NAMES, firingName, screwName, shownTurns } from "./wording.ts";

/** A logged thing in words: "CO2 9.2 %, high fire". */
export function shownBody(body: ItemBody): string {
  switch (body.kind) {
    case "reading":
      return reading(body);
    case "firing":
      return firingName(body.firing);
    case "adjustment":
      return adjustment(body);
    case "note":
      return `Note: ${harmless(body.text)}`;
    case "check":
      return `${CHECK_NAMES[body.item]}: ${body.done ? "done" : "not done"}`;
    case "mark":
      return MARKS[body.mark];
  }
}

const MARKS = {
  "as-found": "As found",
  "as-left": "As left",
  "timer-start": "Timer started",
  finished: "Visit finished",
  acknowledged: "Warnings acknowledged",
  "gas-smell": "Smell of gas",
  "co-alarm": "CO alarm sounding",
} as const;

function adjustment({ adjuster, turns }: Adjustment): string {
  return `${screwName(adjuster)}, ${shownTurns(turns)}`;
}

function reading(body: Reading): string {
  const parts = [`${quantityOf(body.quantity).name} ${shownValue(body.value, body.unit)}`];
  if (body.condition) parts.push(body.condition);
  if (body.firing) parts.push(firingName(body.firing).toLowerCase());
  return parts.join(", ");
}
