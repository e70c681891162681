import type { Command } from "../meaning/item.ts";

/** What a reply asks of the composer beside being said: to rest is to hear nothing but the word that wakes. */
export type Effect = "none" | "rest" | "stop-listening" | "less-talk" | "more-talk" | "figure-by-figure";

/** What is said to "stop listening". */
export const NOT_LISTENING = "Not listening.";

/** Of several in one breath, to rest goes first. */
export function effectOf(commands: readonly Command[]): Effect {
  if (commands.includes("stop-listening")) return "rest";
  return commands.find(isEffect) ?? "none";
}

function isEffect(command: Command): command is Exclude<Effect, "none"> & Command {
  return command === "less-talk" || command === "more-talk" || command === "figure-by-figure";
}
