import type { Reading } from "../../visit/entry.ts";
import type { LoggedItem } from "../../visit/state.ts";

/**
 * What an item was, as a reading, and no longer is: before each mend, and before a strike. Who mends or strikes a number has
 * not measured again, so that a room CO that stopped the work goes with a new reading only.
 */
export function takenBack({ body, history, struckBy }: LoggedItem): Reading[] {
  return (struckBy === null ? history : [...history, body]).filter((past) => past.kind === "reading");
}

/**
 * What an item was, as a reading of each quantity, and is no reading of any more: struck, or mended to something else. A mend
 * of its number ("no, forty") is a reading.
 */
export function lostReadings(item: LoggedItem): Reading[] {
  const { body, struckBy, history } = item;
  if (struckBy === null && history.length === 0) return [];
  const now = struckBy === null && body.kind === "reading" ? body.quantity : null;
  const lost = new Map(takenBack(item).map((reading) => [reading.quantity, reading]));
  return [...lost.values()].filter(({ quantity }) => quantity !== now);
}
