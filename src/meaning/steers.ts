import type { Meaning } from "./item.ts";

/** Whether a phrase only steers the app or takes something back: nothing that would be logged as measured or done. */
export function steers({ items, unsure }: Meaning): boolean {
  return (
    items.length > 0 &&
    unsure.length === 0 &&
    items.every(({ kind }) => kind === "command" || kind === "strike")
  );
}
