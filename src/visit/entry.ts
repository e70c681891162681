import { z } from "zod";
import { Engine } from "../meaning/heard.ts";
import { Unsure } from "../meaning/item.ts";
import { Check, Condition, Dial, Firing } from "../measure/firing.ts";
import { QuantityId } from "../measure/quantity.ts";
import { Unit } from "../measure/unit.ts";

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

/** What an entry says. Corrections point at the entry that they mend (`target` is its id); nothing is deleted. */
export const EntryBody = z.discriminatedUnion("kind", [
  Reading,
  z.strictObject({ kind: z.literal("firing"), firing: Firing }),
  Adjustment,
  z.strictObject({ kind: z.literal("note"), text: z.string() }),
  z.strictObject({ kind: z.literal("check"), item: Check, done: z.boolean() }),
  z.strictObject({ kind: z.literal("mark"), mark: Mark }),
  z.strictObject({ kind: z.literal("strike"), target: z.string() }),
  /** A reading in place of a reading, a turn in place of a turn. */
  z.strictObject({
    kind: z.literal("replace"),
    target: z.string(),
    with: z.discriminatedUnion("kind", [Reading, Adjustment]),
  }),
  /** Heard but not understood well enough to log: kept for the review, and the question that it opens. */
  z.strictObject({ kind: z.literal("unsure"), unsure: Unsure }),
  /** "Yes" or "no" to the question that an unsure entry (`target`) opened; what was accepted follows as its own entries. */
  z.strictObject({ kind: z.literal("answer"), target: z.string(), accepted: z.boolean() }),
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
  body: EntryBody,
});
export type Entry = z.infer<typeof Entry>;
