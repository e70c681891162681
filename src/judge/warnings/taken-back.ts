import type { Reading } from "../../visit/entry.ts";
import type { LoggedItem } from "../../visit/state.ts";

/**
 * What an item was, as a reading, and no longer is: before each mend, and before a strike. Who mends or strikes a number has
 * not measured again, so that a room CO that stopped the work goes with a new reading only.
 */
export function takenBack({ body, history, struckBy }: LoggedItem): Reading[] {
  return (struckBy === null ? history : [...history, body]).filter((past) => past.kind === "reading");
}
