import type { Item, Meaning } from "../../meaning/item.ts";
import type { QuantityId } from "../../measure/quantity.ts";

/** What a phrase comes to. */
export interface Weighed {
  /** All of it was understood, something in it would be asked about, or it is not for the log. */
  readonly weight: "understood" | "unsure" | "nothing";
  /** Whether a reading is in it, or something that is asked about. */
  readonly isReading: boolean;
  /** What is read in it, without a question. */
  readonly quantities: readonly QuantityId[];
  /** Whether it means the same whatever was asked before it. */
  readonly standsAlone: boolean;
  /** Whether it must be taken whatever else is going on: a danger, or the wish not to be heard. */
  readonly isUrgent: boolean;
}

export const NOTHING: Weighed = {
  weight: "nothing",
  isReading: false,
  quantities: [],
  standsAlone: false,
  isUrgent: false,
};

const ROOM_CO: QuantityId = "co-ambient";

/** @param asked the quantity that is asked about: a number alone is then of it, and an answer as any other */
export function weighed({ items, unsure }: Meaning, asked: QuantityId | null): Weighed {
  const likely = [...items, ...unsure.flatMap(({ candidates }) => candidates.slice(0, 1))];
  const isRoomCo =
    likely.some((item) => item.kind === "reading" && item.quantity === ROOM_CO) ||
    unsure.some(({ question }) => question?.asks === "value" && question.quantity === ROOM_CO);
  return {
    weight: unsure.length > 0 ? "unsure" : items.length > 0 ? "understood" : "nothing",
    isReading: unsure.length > 0 || items.some(({ kind }) => kind === "reading"),
    quantities: items.flatMap((item) => (item.kind === "reading" ? [item.quantity] : [])),
    standsAlone: unsure.length === 0 && items.every(standsAlone),
    isUrgent: likely.some(isUrgent) || (isRoomCo && asked !== ROOM_CO),
  };
}

function standsAlone(item: Item): boolean {
  switch (item.kind) {
    case "firing":
    case "reading":
    case "adjustment":
    case "note":
    case "check":
      return true;
    case "command":
      return item.command !== "yes" && item.command !== "no" && item.command !== "repeat";
    case "replace":
    case "mend":
    case "strike":
      return false;
  }
}

function isUrgent(item: Item): boolean {
  if (item.kind !== "command") return false;
  return item.command === "gas-smell" || item.command === "co-alarm" || item.command === "stop-listening";
}
