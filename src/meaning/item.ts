import { z } from "zod";
import { Check, Condition, Dial, Firing } from "../measure/firing.ts";
import { QuantityId } from "../measure/quantity.ts";
import { Unit } from "../measure/unit.ts";
import { Question } from "./question.ts";

export const COMMANDS = [
  "read-back",
  "repeat",
  "next-step",
  "verdict",
  "advice",
  "start-timer",
  "time-left",
  "stop-listening",
  "mark-as-found",
  "mark-as-left",
  "finish-visit",
  "limits",
  "acknowledge",
  "gas-smell",
  "co-alarm",
  "less-talk",
  "more-talk",
  "figure-by-figure",
  "yes",
  "no",
] as const;
export const Command = z.enum(COMMANDS);
export type Command = z.infer<typeof Command>;

/** One measured value as said. `unit` is null where none was said and the quantity has more than one. */
export const ReadingItem = z.strictObject({
  kind: z.literal("reading"),
  quantity: QuantityId,
  value: z.number(),
  unit: Unit.nullable(),
  firing: Firing.nullable(),
  condition: Condition.nullable(),
  dial: Dial.nullable(),
  /** The exact words it came from. */
  said: z.string(),
  /** 0 to 1. */
  confidence: z.number().min(0).max(1),
});
export type ReadingItem = z.infer<typeof ReadingItem>;

/**
 * A correction without a number: of the last reading ("no, static"; "no, celsius": of all that were assumed with it), of all readings of the last utterance
 * ("no, that was low fire"), or of the last turn ("no, out", "no, the other way", "no, that was the low screw").
 */
export const Mend = z
  .strictObject({
    kind: z.literal("mend"),
    unit: Unit.optional(),
    condition: Condition.optional(),
    way: z.enum(["clockwise", "counterclockwise", "opposite"]).optional(),
    adjuster: Firing.optional(),
    firing: Firing.optional(),
  })
  .refine(({ kind, ...fields }) => Object.keys(fields).length > 0, "expected what is mended");
export type Mend = z.infer<typeof Mend>;

/** What "scratch that" may name beside readings: the last turn, or the last alarm that was logged as sounding. */
export const STRIKABLE = ["adjustment", "co-alarm"] as const;
export type Strikable = (typeof STRIKABLE)[number];

/** What a phrase means, one thing at a time, in spoken order. The command line's contract. */
export const Item = z.discriminatedUnion("kind", [
  z.strictObject({ kind: z.literal("firing"), firing: Firing }),
  ReadingItem,
  z.strictObject({ kind: z.literal("adjustment"), adjuster: Firing.nullable(), turns: z.number() }),
  /** Of the last reading, or of the last one of `quantity` where that was said ("no, the CO was one thirty"). */
  z.strictObject({
    kind: z.literal("replace"),
    value: z.number(),
    unit: Unit.nullable(),
    quantity: QuantityId.optional(),
  }),
  Mend,
  /** Of the last item, or, where that was said, of the last turn, alarm, or reading of `quantity` ("strike that CO"). */
  z.strictObject({
    kind: z.literal("strike"),
    last: z.enum(STRIKABLE).optional(),
    quantity: QuantityId.optional(),
  }),
  z.strictObject({ kind: z.literal("note"), text: z.string() }),
  z.strictObject({ kind: z.literal("check"), item: Check, done: z.boolean() }),
  z.strictObject({ kind: z.literal("command"), command: Command }),
]);
export type Item = z.infer<typeof Item>;

/** Why a number is asked about that the ear was not sure of. */
export const NOT_CLEAR = "not heard clearly";

/** A piece of a phrase that was not logged, why, and what it may have meant (best first). */
export const Unsure = z.strictObject({
  text: z.string(),
  reason: z.string(),
  candidates: z.array(Item),
  /** What is missing, where the next phrase may give just that. */
  question: Question.optional(),
});
export type Unsure = z.infer<typeof Unsure>;

/** What the parser makes of one phrase. */
export const Meaning = z.strictObject({
  text: z.string(),
  items: z.array(Item),
  unsure: z.array(Unsure),
});
export type Meaning = z.infer<typeof Meaning>;
