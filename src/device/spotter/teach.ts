import * as tf from "@tensorflow/tfjs-core";
import { type Augmentation, augmented, seeded } from "./augment.ts";
import type { BaseModel } from "./base.ts";
import { createTransfer, loadRecognizer, type Recognizer } from "./library.ts";
import type { DenseWeights, TaughtSpotter } from "./profile.ts";
import { ballasted, denseOf, featuresOf, loadTail, setDense } from "./tail.ts";
import { checkTakes, type Take } from "./take.ts";
import { CLASSES, type Class } from "./words.ts";

export interface TeachOptions extends Augmentation {
  /** Passes over the examples that change the last layer only, and after them those that change the last two. */
  readonly headEpochs: number;
  readonly epochs: number;
  /** How far each step goes (of the optimiser Adam), for each of the two stretches. */
  readonly headRate: number;
  readonly rate: number;
  readonly batch: number;
  /** Which chances are taken. */
  readonly seed: number;
}

export const TEACH: TeachOptions = {
  shifted: 2,
  noisy: 6,
  shiftColumns: 10,
  speechOverNoise: [0, 20],
  headEpochs: 2,
  epochs: 16,
  headRate: 1e-3,
  rate: 5e-4,
  batch: 32,
  seed: 1,
};

/** Of the whole progress, what the convolutions take. */
const FEATURES_SHARE = 0.6;

/**
 * Learns one person's key words by the library's transfer learning: from the shipped model's last two layers on, so that what it knows of
 * others stays where it began. Classes without a take keep what the shipped model has of them. TensorFlow.js must have its backend set.
 * @param takes two classes at least
 * @param progress told the fraction done, 0 to 1
 * @param signal ends it: the promise rejects with its reason
 * @throws (rejects) where the takes are no takes, or what came out is no model; nothing half-taught comes out
 */
export async function teachSpotter(
  base: BaseModel,
  takes: readonly Take[],
  options: Partial<TeachOptions> = {},
  progress: (fraction: number) => void = () => undefined,
  signal?: AbortSignal,
): Promise<TaughtSpotter> {
  checkTakes(takes);
  if (new Set(takes.map(({ label }) => label)).size < 2)
    throw new RangeError("Expected takes of two classes at least.");
  const how = { ...TEACH, ...options };
  const examples = augmented(takes, how, seeded(how.seed));
  const recognizer = await loadRecognizer(base);
  let tail: Recognizer | null = null;
  try {
    const features = await featuresOf(
      recognizer,
      examples.map(({ spectrogram }) => spectrogram),
      async (fraction) => {
        progress(fraction * FEATURES_SHARE);
        await tf.nextFrame();
        signal?.throwIfAborted();
      },
    );
    const { columns, scale } = ballasted(features);
    tail = await loadTail(recognizer, scale);
    const labelled = columns.map((values, at) => ({ label: examples[at]?.label ?? "_unknown_", values }));
    const layers = await train(tail, labelled, how, (fraction) => {
      progress(FEATURES_SHARE + fraction * (1 - FEATURES_SHARE));
      signal?.throwIfAborted();
    });
    signal?.throwIfAborted();
    return { base: base.hash, ...layers };
  } finally {
    tail?.model.dispose();
    recognizer.model.dispose();
  }
}

interface Labelled {
  readonly label: Class;
  readonly values: Float32Array;
}

async function train(
  tail: Recognizer,
  examples: readonly Labelled[],
  how: TeachOptions,
  step: (fraction: number) => void,
): Promise<{ hidden: DenseWeights; head: DenseWeights }> {
  const before = denseOf(tail.model.getLayer("head"));
  const transfer = createTransfer(tail, examples);
  const places = transfer.classes.map((label) => CLASSES.indexOf(label));
  const batches = Math.ceil(examples.length / how.batch) * (how.headEpochs + how.epochs);
  const [optimizer, fineTuningOptimizer] = [tf.train.adam(how.headRate), tf.train.adam(how.rate)];
  let done = 0;
  const onBatchEnd = async (): Promise<void> => step(Math.min(1, ++done / batches));
  try {
    await transfer.train({
      epochs: how.headEpochs,
      fineTuningEpochs: how.epochs,
      optimizer,
      fineTuningOptimizer,
      batchSize: how.batch,
      callback: {
        // The library begins with a last layer of chance: it begins with what is known instead.
        onTrainBegin: async () => setDense(transfer.head(), picked(before, places)),
        onBatchEnd,
      },
      fineTuningCallback: { onBatchEnd },
    });
    const taught = {
      hidden: denseOf(tail.model.getLayer("hidden")),
      head: replaced(before, places, denseOf(transfer.head())),
    };
    if (![taught.hidden, taught.head].every(isNumbers)) throw new Error("The training ran away.");
    return taught;
  } finally {
    for (const made of [transfer, optimizer, fineTuningOptimizer]) made.dispose();
  }
}

/** Some columns of a dense layer. */
function picked({ kernel, bias }: DenseWeights, places: readonly number[]): DenseWeights {
  const rows = kernel.length / bias.length;
  return {
    kernel: Float32Array.from(
      { length: rows * places.length },
      (_, at) =>
        kernel[Math.floor(at / places.length) * bias.length + (places[at % places.length] ?? 0)] ?? 0,
    ),
    bias: Float32Array.from(places, (place) => bias[place] ?? 0),
  };
}

/** A dense layer with some columns from another. */
function replaced(whole: DenseWeights, places: readonly number[], part: DenseWeights): DenseWeights {
  const [kernel, bias] = [whole.kernel.slice(), whole.bias.slice()];
  for (const [from, to] of places.entries()) {
    bias[to] = part.bias[from] ?? 0;
    for (let row = 0; row < kernel.length / bias.length; row++)
      kernel[row * bias.length + to] = part.kernel[row * places.length + from] ?? 0;
  }
  return { kernel, bias };
}

function isNumbers({ kernel, bias }: DenseWeights): boolean {
  return kernel.every(Number.isFinite) && bias.every(Number.isFinite);
}
