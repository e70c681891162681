import type { Command } from "../meaning/item.ts";

/** What a reply asks of the composer beside being said. */
export type Effect = "none" | "stop-listening" | "less-talk" | "more-talk";

/** Of several in one breath, to stop listening goes first. */
export function effectOf(commands: readonly Command[]): Effect {
  if (commands.includes("stop-listening")) return "stop-listening";
  return commands.find((command) => command === "less-talk" || command === "more-talk") ?? "none";
}
