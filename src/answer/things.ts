import { spokenScrew, spokenTurns } from "../judge/turns.ts";
import type { Item, Mend, ReadingItem } from "../meaning/item.ts";
import type { Check, Dial } from "../measure/firing.ts";
import { quantityOf } from "../measure/quantity.ts";
import { spokenNumber, spokenReading, spokenUnitOf } from "../measure/show.ts";
import { spokenUnit } from "../measure/unit.ts";
import type { Mark } from "../visit/entry.ts";
import type { ItemBody } from "../visit/state.ts";

/** Each check as it is said when it is done, and when it is not. */
const CHECK_SAID: Readonly<Record<Check, readonly [done: string, undone: string]>> = {
  isolation: ["gas isolated", "gas is not isolated"],
  "pressure-tap": ["manometer on", "manometer is not on"],
  "gas-on": ["gas on", "gas is off"],
  "analyser-zeroed": ["analyser zeroed", "analyser is not zeroed"],
  "low-fire-cap": ["low fire cap on", "low fire cap is off"],
  "test-mode-off": ["test mode off", "test mode is still on"],
  "manometer-removed": ["manometer off", "manometer is still on"],
  "pressure-test-screw": ["pressure test screw closed", "pressure test screw is open"],
  "test-port": ["test port plugged", "test port is open"],
  panel: ["panel on", "panel is off"],
  "leak-check": ["leak check done", "leak check is not done"],
};

const MARK_MADE: Readonly<Record<Mark, string>> = {
  "as-found": "marked as found",
  "as-left": "marked as left",
  "timer-start": "clock started",
  finished: "visit finished",
  acknowledged: "noted",
  "gas-smell": "gas smell logged",
  "co-alarm": "alarm logged",
};

const DIAL_UNITS: Readonly<Record<Dial["unit"], readonly [one: string, many: string]>> = {
  "[ft_i]3": ["cubic foot", "cubic feet"],
  m3: ["cubic metre", "cubic metres"],
};

/** A long note is only begun: enough to know that it was heard. */
const NOTE_WORDS = 6;

/** A logged thing as it is read back: "C O 2 nine point two". */
export function spokenBody(body: ItemBody): string {
  switch (body.kind) {
    case "reading":
      return spokenValue(body);
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
      return spokenValue(item);
    case "adjustment":
      return `${item.adjuster ? `${spokenScrew(item.adjuster)} ` : ""}${spokenTurns(item.turns)}`;
    case "replace":
      return `make ${spokenMend(item)}`;
    case "firing":
      return `${item.firing} fire`;
    case "check":
      return spokenCheck(item.item, item.done);
    case "note":
      return `note: ${shortened(item.text)}`;
    case "mend":
      return `make that ${spokenAmend(item)}`;
    case "strike":
      return item.quantity ? `scratch ${quantityOf(item.quantity).spoken}` : "scratch that";
    case "command":
      return null;
  }
}

type Valued = Pick<ReadingItem, "quantity" | "value" | "unit" | "condition" | "dial">;

function spokenAmend({ unit, condition, way, adjuster, firing }: Mend): string {
  const words = [
    unit && spokenUnit(unit),
    condition,
    adjuster && spokenScrew(adjuster),
    firing && `${firing} fire`,
  ];
  const turned = way === "opposite" ? "the other way" : way;
  return [...words, turned].filter(Boolean).join(" ");
}

function spokenMend({ quantity, value, unit }: Extract<Item, { kind: "replace" }>): string {
  if (quantity !== undefined) return spokenReading(quantity, value, unit);
  return `that ${spokenNumber(value)}${unit ? ` ${spokenUnitOf(value, unit)}` : ""}`;
}

function spokenValue({ quantity, value, unit, condition, dial }: Valued): string {
  const words = [condition ?? "", spokenReading(quantity, value, unit), dial ? spokenDial(dial) : ""];
  return words.filter((word) => word !== "").join(" ");
}

/** What the meter's time is for: "seconds for half a cubic foot", "seconds for two cubic feet". */
export function spokenDial({ value, unit }: Dial): string {
  const [one, many] = DIAL_UNITS[unit];
  if (value === 0.5) return `seconds for half a ${one}`;
  return `seconds for ${spokenNumber(value)} ${value === 1 ? one : many}`;
}

function spokenCheck(item: Check, done: boolean): string {
  const [said, undone] = CHECK_SAID[item];
  return done ? said : undone;
}

function shortened(text: string): string {
  const words = text.trim().split(/\s+/);
  return words.length <= NOTE_WORDS ? words.join(" ") : `${words.slice(0, NOTE_WORDS).join(" ")}…`;
}
