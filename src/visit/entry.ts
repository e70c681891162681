import { z } from "zod";
import { Engine, MOST_RIVALS, Rival } from "../meaning/heard.ts";
import { Unsure } from "../meaning/item.ts";
import { Check, Condition, Dial, Firing } from "../measure/firing.ts";
import { QuantityId } from "../measure/quantity.ts";
import { Unit } from "../measure/unit.ts";
import { Details } from "./details.ts";
import { MOST_TASKS, Task } from "./task.ts";

/** Whether a field was said, or assumed and from where. */
export const Origin = z.enum(["said", "assumed"]);
export type Origin = z.infer<typeof Origin>;

export const Reading = z.strictObject({
  kind: z.literal("reading"),
  quantity: QuantityId,
  value: z.number(),
  unit: Unit,
  firing: Firing.nullable(),
  condition: Condition.nullable(),
  dial: Dial.nullable(),
  /** Field by field: said, or assumed (a firing carried over, a unit from the visit's settings). */
  origin: z.strictObject({ value: Origin, unit: Origin, firing: Origin, condition: Origin }),
});
export type Reading = z.infer<typeof Reading>;

export const Mark = z.enum([
  "as-found",
  "as-left",
  "timer-start",
  "finished",
  /** The person has taken note of the warnings so far. */
  "acknowledged",
  "gas-smell",
  "co-alarm",
]);
export type Mark = z.infer<typeof Mark>;

/** A turn of a screw. */
export const Adjustment = z.strictObject({
  kind: z.literal("adjustment"),
  adjuster: Firing,
  /** Signed turns, clockwise positive. */
  turns: z.number(),
  origin: z.strictObject({ adjuster: Origin }),
});
export type Adjustment = z.infer<typeof Adjustment>;

/** What says something about the boiler or the work, as against corrections, questions and reviews. */
export const ItemBody = z.discriminatedUnion("kind", [
  Reading,
  z.strictObject({ kind: z.literal("firing"), firing: Firing }),
  Adjustment,
  z.strictObject({ kind: z.literal("note"), text: z.string() }),
  z.strictObject({ kind: z.literal("check"), item: Check, done: z.boolean() }),
  z.strictObject({ kind: z.literal("mark"), mark: Mark }),
]);
export type ItemBody = z.infer<typeof ItemBody>;

/** Who looked a visit through: a name as typed, that is not blank. */
export const Reviewer = z.string().max(80).regex(/\S/, "expected a name");

/** What an entry says. Corrections point at the entry that they mend (`target` is its id); nothing is deleted. */
export const EntryBody = z.discriminatedUnion("kind", [
  ...ItemBody.options,
  /** Of an item: of anything else it strikes nothing. A replacement of what was struck puts it back. */
  z.strictObject({ kind: z.literal("strike"), target: z.string() }),
  /** In place of an item; or what an unsure entry was after all, which then counts at the time and place of that entry. */
  z.strictObject({ kind: z.literal("replace"), target: z.string(), with: ItemBody }),
  /** Heard but not understood well enough to log: kept for the review, and the question that it opens. */
  z.strictObject({ kind: z.literal("unsure"), unsure: Unsure }),
  /**
   * "Yes" or "no" to the question that an unsure entry (`target`) opened; what was accepted follows as its own entries. "No"
   * by hand, later: it was nothing for the log.
   */
  z.strictObject({ kind: z.literal("answer"), target: z.string(), accepted: z.boolean() }),
  /** "Looks right": a person has looked the visit through as it stands. Whatever is logged later opens the review again. */
  z.strictObject({ kind: z.literal("reviewed"), by: Reviewer }),
  /** Where, with what and by whom; the last one counts, as a whole. */
  z.strictObject({ kind: z.literal("details"), details: Details }),
  /** What a note means, as the reviewer has it, in place of what its words alone say. Until the note itself is mended. */
  z.strictObject({ kind: z.literal("tasks"), target: z.string(), tasks: z.array(Task).max(MOST_TASKS) }),
]);
export type EntryBody = z.infer<typeof EntryBody>;

/** One line of the append-only log. */
export const Entry = z.strictObject({
  id: z.string().min(1),
  /** Place in the visit, from 0, without gaps. */
  seq: z.int().min(0),
  /** ISO 8601 in UTC. */
  at: z.iso.datetime({ offset: true }),
  engine: Engine,
  /** The whole phrase as heard, and the exact words that this entry came from. */
  phrase: z.string(),
  said: z.string(),
  /** 0 to 1. */
  confidence: z.number().min(0).max(1),
  /** What else the phrase may have been, for the ear, with another meaning: likeliest first. Left out where there is none. */
  rivals: z.array(Rival).max(MOST_RIVALS).optional(),
  body: EntryBody,
});
export type Entry = z.infer<typeof Entry>;
