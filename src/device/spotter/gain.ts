import * as tf from "@tensorflow/tfjs-core";
import type { BaseModel, SpotterModel } from "./base.ts";
import { loadRecognizer } from "./library.ts";
import type { Gain } from "./profile.ts";
import { checkTakes, normalised, type Take } from "./take.ts";
import { BINS, CLASSES, COLUMNS } from "./words.ts";

/** Spectrograms that are scored at once. */
const BATCH = 32;

/**
 * The chance of each of `CLASSES` for each spectrogram, as the spotter's windows have them. TensorFlow.js must have its backend set.
 * @param spectrograms in dB, `COLUMNS` x `BINS` each
 */
export async function scoresOf(
  model: SpotterModel,
  spectrograms: readonly Float32Array[],
): Promise<Float32Array[]> {
  const recognizer = await loadRecognizer(model);
  try {
    const all: Float32Array[] = [];
    for (let from = 0; from < spectrograms.length; from += BATCH) {
      const batch = spectrograms.slice(from, from + BATCH).map(normalised);
      const input = tf.tidy(() =>
        tf.stack<tf.Tensor3D>(batch.map((one) => tf.tensor3d(one, [COLUMNS, BINS, 1]))),
      );
      const { scores } = await recognizer.recognize(input);
      input.dispose();
      for (const one of Array.isArray(scores) ? scores : [scores]) all.push(Float32Array.from(one));
    }
    return all;
  } finally {
    recognizer.model.dispose();
  }
}

/** How many of the takes are heard right: the highest chance is that of their class. */
export async function rightOf(model: SpotterModel, takes: readonly Take[]): Promise<number> {
  checkTakes(takes);
  const scores = await scoresOf(
    model,
    takes.map(({ spectrogram }) => spectrogram),
  );
  return takes.filter(({ label }, at) => {
    const chances = scores[at] ?? new Float32Array();
    return CLASSES[chances.indexOf(Math.max(...chances))] === label;
  }).length;
}

/**
 * What teaching brought, on takes that were held back from it.
 * @throws (rejects) where there are none
 */
export async function gainOf(
  base: BaseModel,
  taught: SpotterModel,
  heldBack: readonly Take[],
): Promise<Gain> {
  if (heldBack.length === 0) throw new RangeError("Expected takes that were held back, found none.");
  return {
    heldBack: heldBack.length,
    rightBefore: await rightOf(base, heldBack),
    rightAfter: await rightOf(taught, heldBack),
  };
}
