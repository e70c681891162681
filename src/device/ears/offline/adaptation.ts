import { z } from "zod";
import { Gain } from "../../spotter/profile.ts";
import { CHANNELS, type PhoneHead, SYMBOLS } from "./own-head.ts";

/** Training gives a few at most; with such as these the sums stay numbers. */
const LARGEST_WEIGHT = 1000;

/** What was learned of how one person speaks: the phone model's head, and on which model. */
export interface LearnedPhones {
  /** SHA-256 of the shipped weights, base64url: a head learned on one model fits no other. */
  readonly base: string;
  readonly head: PhoneHead;
  /** Of what was held back, how much was heard right before and after. */
  readonly gain: Gain;
  /** How many phrases it was learned from, those held back among them. */
  readonly phrases: number;
  /** ISO 8601 in UTC. */
  readonly learnedAt: string;
  /** Switched off it is kept, and not used. */
  readonly on: boolean;
}

/** As it is stored. */
export const LearnedPhones: z.ZodType<LearnedPhones> = z.strictObject({
  base: z.string(),
  head: z.strictObject({ kernel: floats(CHANNELS * SYMBOLS), bias: floats(SYMBOLS) }),
  gain: Gain,
  phrases: z.int().min(1),
  learnedAt: z.string(),
  on: z.boolean(),
});

function floats(count: number) {
  return z
    .instanceof(Float32Array)
    .refine((values) => values.length === count && values.every((one) => Math.abs(one) <= LARGEST_WEIGHT), {
      message: `expected ${count} finite numbers from -${LARGEST_WEIGHT} to ${LARGEST_WEIGHT}`,
    });
}
