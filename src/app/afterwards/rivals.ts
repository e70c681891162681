import { spokenCandidate } from "../../answer/things.ts";
import type { Item, Meaning } from "../../meaning/item.ts";
import { capital } from "../../measure/capital.ts";
import { onlyUnit, quantityOf } from "../../measure/quantity.ts";
import { shownValue } from "../../measure/show.ts";
import { shownText } from "../../measure/text.ts";
import type { Entry, ItemBody } from "../../visit/entry.ts";
import { isItemBody } from "../../visit/item-body.ts";

/** Something else that may have been meant, to be picked. */
export interface Pick {
  readonly item: Item;
  /** "CO 14 ppm". */
  readonly label: string;
  /** How sure the ear was of it, 0 to 1; null for what the parser itself was not sure of. */
  readonly confidence: number | null;
}

/** What was asked at the boiler may have been any of these; a command is nothing that was logged. */
export function candidatesOf(items: readonly Item[]): Pick[] {
  return items.flatMap((item) => {
    const label = labelOf(item);
    return label === null ? [] : [{ item, label, confidence: null }];
  });
}

/**
 * What the ear heard less surely in place of one entry of a phrase: the thing of the same kind and quantity in each other
 * wording, else the one at the same place. `together` are the phrase's entries; `parse` is without context.
 */
export function rivalsOf(
  { id, body, rivals = [] }: Entry,
  together: readonly Entry[],
  parse: (text: string) => Meaning,
): Pick[] {
  if (!isItemBody(body)) return [];
  const place = together.filter((entry) => isItemBody(entry.body)).findIndex((entry) => entry.id === id);
  const picks = rivals.flatMap(({ text, confidence }): Pick[] => {
    const { items, unsure } = parse(text);
    const meant = [...items, ...unsure.flatMap(({ candidates }) => candidates.slice(0, 1))];
    const item = meant.find((other) => isOfSame(other, body)) ?? meant[place];
    const label = item && labelOf(item);
    return item && label && !isSame(item, body) ? [{ item, label, confidence }] : [];
  });
  // The same thing in two wordings is one: as sure as both.
  const byLabel = new Map<string, Pick>();
  for (const pick of picks) {
    const sure = (byLabel.get(pick.label)?.confidence ?? 0) + (pick.confidence ?? 0);
    byLabel.set(pick.label, { ...pick, confidence: Math.min(1, sure) });
  }
  return [...byLabel.values()].sort((a, b) => (b.confidence ?? 0) - (a.confidence ?? 0));
}

function labelOf(item: Item): string | null {
  if (item.kind === "reading") {
    const { quantity, value, unit, condition, firing } = item;
    const words = [
      `${quantityOf(quantity).name} ${shownValue(value, unit)}`,
      condition,
      firing && `${firing} fire`,
    ];
    return words.filter((word) => word !== null).join(", ");
  }
  const said = spokenCandidate(item);
  return said === null ? null : capital(shownText(said));
}

function isOfSame(item: Item, body: ItemBody): boolean {
  if (item.kind === "reading") return body.kind === "reading" && item.quantity === body.quantity;
  return item.kind === body.kind && item.kind !== "note";
}

/** Whether a wording says what was logged. What it leaves open is no difference. */
export function isSame(item: Item, body: ItemBody): boolean {
  switch (item.kind) {
    case "reading":
      if (body.kind !== "reading") return false;
      return (
        item.quantity === body.quantity &&
        item.value === body.value &&
        (item.unit === null || item.unit === onlyUnit(item.quantity) || item.unit === body.unit) &&
        (item.firing === null || item.firing === body.firing)
      );
    case "firing":
      return body.kind === "firing" && item.firing === body.firing;
    case "adjustment":
      if (body.kind !== "adjustment" || item.turns !== body.turns) return false;
      return item.adjuster === null || item.adjuster === body.adjuster;
    case "check":
      return body.kind === "check" && item.item === body.item && item.done === body.done;
    case "note":
      return body.kind === "note" && item.text === body.text;
    case "command":
    case "replace":
    case "mend":
    case "strike":
      return false;
  }
}
