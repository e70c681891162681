import { z } from "zod";

/** A layer's weights: in x out, row by row, then its biases. 32-bit floats, little-endian. */
export interface DenseWeights {
  readonly kernel: Float32Array;
  readonly bias: Float32Array;
}

/** What was learned of one person's key words: the spotter's last two layers, and which base they belong to. */
export interface TaughtSpotter {
  /** SHA-256 of the base model's weights, base64url: layers learned on one base fit no other. */
  readonly base: string;
  readonly hidden: DenseWeights;
  readonly head: DenseWeights;
}

/** How many takes, of those held back, were heard right before and after. */
export const Gain = z.strictObject({
  heldBack: z.int().min(1),
  rightBefore: z.int().min(0),
  rightAfter: z.int().min(0),
});
export type Gain = z.infer<typeof Gain>;
