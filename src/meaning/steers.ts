import type { Command, Meaning } from "./item.ts";

/** Commands that log nothing, answer nothing and warn of nothing. */
const STEERING: ReadonlySet<Command> = new Set([
  "read-back",
  "repeat",
  "next-step",
  "verdict",
  "advice",
  "time-left",
  "stop-listening",
  "limits",
  "less-talk",
  "more-talk",
  "figure-by-figure",
]);

/** What may kill is not for when the app has done talking. */
const DANGER: ReadonlySet<Command> = new Set(["gas-smell", "co-alarm"]);

/** Whether a phrase only steers the app, takes something back or tells of a danger: nothing in it would be logged as measured or done. */
export function steers({ items, unsure }: Meaning): boolean {
  return (
    items.length > 0 &&
    unsure.length === 0 &&
    items.every(
      (item) =>
        item.kind === "strike" ||
        (item.kind === "command" && (STEERING.has(item.command) || DANGER.has(item.command))),
    )
  );
}
