import { z } from "zod";
import { Gain } from "../../spotter/profile.ts";

/** What goes into the phone model's head: channels of its last block. */
export const CHANNELS = 400;
/** What comes out: the phones and the blank. */
export const SYMBOLS = 40;
/** Training gives a few at most; with such as these the sums stay numbers. */
const LARGEST_WEIGHT = 1000;

/** The last layer of the phone model: `CHANNELS` x `SYMBOLS` weights, row by row, then a bias for each symbol. */
export interface PhoneHead {
  readonly kernel: Float32Array;
  readonly bias: Float32Array;
}

function floats(count: number) {
  return z
    .instanceof(Float32Array)
    .refine((values) => values.length === count && values.every((one) => Math.abs(one) <= LARGEST_WEIGHT), {
      message: `expected ${count} finite numbers from -${LARGEST_WEIGHT} to ${LARGEST_WEIGHT}`,
    });
}

/** What was learned of how one person speaks: the phone model's head, and on which model. */
export const LearnedPhones = z.strictObject({
  /** SHA-256 of the shipped weights, base64url: a head learned on one model fits no other. */
  base: z.string(),
  head: z.strictObject({ kernel: floats(CHANNELS * SYMBOLS), bias: floats(SYMBOLS) }),
  /** Of what was held back, how much was heard right before and after. */
  gain: Gain,
  /** How many phrases it was learned from. */
  phrases: z.int().min(1),
  /** ISO 8601 in UTC. */
  learnedAt: z.string(),
  /** Switched off it is kept, and not used. */
  on: z.boolean(),
});
export type LearnedPhones = z.infer<typeof LearnedPhones>;
