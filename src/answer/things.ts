import { spokenScrew, spokenTurns } from "../judge/turns.ts";
import type { Item } from "../meaning/item.ts";
import type { Check, Condition } from "../measure/firing.ts";
import type { QuantityId } from "../measure/quantity.ts";
import { spokenNumber, spokenReading } from "../measure/show.ts";
import { spokenUnit, type Unit } from "../measure/unit.ts";
import type { Mark } from "../visit/entry.ts";
import type { ItemBody } from "../visit/state.ts";

export const CHECK_DONE: Readonly<Record<Check, string>> = {
  "low-fire-cap": "low fire cap on",
  "test-mode-off": "test mode off",
  "manometer-removed": "manometer off",
  "pressure-test-screw": "pressure test screw closed",
  "test-port": "test port plugged",
  panel: "panel on",
  "leak-check": "leak check done",
};

export const MARK_MADE: Readonly<Record<Mark, string>> = {
  "as-found": "marked as found",
  "as-left": "marked as left",
  "timer-start": "clock started",
  finished: "visit finished",
};

/** A long note is only begun: enough to know that it was heard. */
const NOTE_WORDS = 6;

/** A logged thing as it is read back: "C O 2 nine point two". */
export function spokenBody(body: ItemBody): string {
  switch (body.kind) {
    case "reading":
      return spokenValue(body.quantity, body.value, body.unit, body.condition);
    case "firing":
      return `${body.firing} fire`;
    case "adjustment":
      return `${spokenScrew(body.adjuster)} ${spokenTurns(body.turns)}`;
    case "note":
      return `note: ${shortened(body.text)}`;
    case "check":
      return spokenCheck(body.item, body.done);
    case "mark":
      return MARK_MADE[body.mark];
  }
}

/** What an unsure piece may have meant, as a question without its mark; null where it is nothing to say yes to. */
export function spokenCandidate(item: Item): string | null {
  switch (item.kind) {
    case "reading":
      return spokenValue(item.quantity, item.value, item.unit, item.condition);
    case "adjustment":
      return `${item.adjuster ? `${spokenScrew(item.adjuster)} ` : ""}${spokenTurns(item.turns)}`;
    case "replace":
      return `make that ${spokenNumber(item.value)}${item.unit ? ` ${spokenUnit(item.unit)}` : ""}`;
    case "firing":
      return `${item.firing} fire`;
    case "check":
      return spokenCheck(item.item, item.done);
    case "note":
      return `note: ${shortened(item.text)}`;
    case "strike":
      return "scratch that";
    case "command":
      return null;
  }
}

function spokenValue(id: QuantityId, value: number, unit: Unit | null, condition: Condition | null): string {
  return `${condition ? `${condition} ` : ""}${spokenReading(id, value, unit)}`;
}

function spokenCheck(item: Check, done: boolean): string {
  return done ? CHECK_DONE[item] : `not yet ${CHECK_DONE[item]}`;
}

function shortened(text: string): string {
  const words = text.trim().split(/\s+/);
  return words.length <= NOTE_WORDS ? words.join(" ") : `${words.slice(0, NOTE_WORDS).join(" ")}…`;
}
