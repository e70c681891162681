import { z } from "zod";
import type { Effect } from "./effect.ts";

/**
 * How much is said. Warnings and questions are the same in all three.
 *
 * - `short`: the bare numbers with their verdict, and the instruction in the fewest words that are safe.
 * - `normal`: at most ten words when all is well, with the names where they fit; limits and what to expect where something is out.
 * - `full`: names, limits, what to expect and why, always.
 */
export const Talkativeness = z.enum(["short", "normal", "full"]);
export type Talkativeness = z.infer<typeof Talkativeness>;

/** The level after a reply: one step less or more where it was asked for, else the same. The composer keeps it. */
export function talkAfter(level: Talkativeness, effect: Effect): Talkativeness {
  const levels = Talkativeness.options;
  const step = effect === "less-talk" ? -1 : effect === "more-talk" ? 1 : 0;
  return levels[levels.indexOf(level) + step] ?? level;
}
