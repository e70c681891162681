import { z } from "zod";
import { LearnedPhones } from "../../device/ears/offline/adaptation.ts";
import { type DenseWeights, Gain } from "../../device/spotter/profile.ts";
import type { VoiceProfile } from "../../device/spotter/voice-profile.ts";
import { VOICE_LAYERS, type VoiceLayer } from "../../record/voice-file.ts";

/** Weights that training gives are a few at most; with such as these the model's sums stay numbers. */
export const LARGEST_WEIGHT = 1000;

/** Whether they are so many numbers that can be weights. */
export function areWeights(values: Float32Array, count: number): boolean {
  // NaN is within nothing.
  return values.length === count && values.every((value) => Math.abs(value) <= LARGEST_WEIGHT);
}

/** Whether both of a layer are of its size. */
export function isLayer({ kernel, bias }: DenseWeights, name: VoiceLayer): boolean {
  const { inputs, outputs } = VOICE_LAYERS[name];
  return areWeights(kernel, inputs * outputs) && areWeights(bias, outputs);
}

function layer(name: VoiceLayer) {
  const floats = z.instanceof(Float32Array);
  return z
    .strictObject({ kernel: floats, bias: floats })
    .refine((weights) => isLayer(weights, name), { message: `expected the weights of the layer ${name}` });
}

/** A profile as the notebook keeps it. */
const Stored = z.strictObject({
  id: z.string(),
  name: z.string(),
  taughtAt: z.string(),
  spotter: z.strictObject({ base: z.string(), hidden: layer("hidden"), head: layer("head") }),
  gain: Gain,
  phones: LearnedPhones.optional(),
  on: z.boolean(),
});

/** What lies in the notebook as a profile; null where it cannot be read any more. */
export function storedVoice(row: unknown): VoiceProfile | null {
  const read = Stored.safeParse(row);
  if (!read.success) return null;
  const { phones, ...voice } = read.data;
  return phones ? { ...voice, phones } : voice;
}
