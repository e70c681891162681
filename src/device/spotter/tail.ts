import * as tf from "@tensorflow/tfjs-core";
import * as tfl from "@tensorflow/tfjs-layers";
import type { SpotterModel, WeightSpec } from "./base.ts";
import { loadRecognizer, type Recognizer } from "./library.ts";
import type { DenseWeights } from "./profile.ts";
import { normalised } from "./take.ts";
import { BINS, COLUMNS } from "./words.ts";

// The convolutions of the model never change while it is taught, and they are what takes time. So they are run once for each example,
// and the library is taught on the rest: a model of its own kind whose "spectrogram" is one column of what the convolutions gave.

const BATCH = 32;
/** What is added to a column so that the library's normalising, which knows no other input than sound, changes nothing. */
const BALLAST = 2;

/** What the convolutions give of each spectrogram: the input of the layer "hidden". */
export async function featuresOf(
  { model }: Recognizer,
  spectrograms: readonly Float32Array[],
  each: (fraction: number) => Promise<void>,
): Promise<Float32Array[]> {
  const trunk = tfl.model({ inputs: model.inputs, outputs: model.getLayer("hidden").input });
  const features: Float32Array[] = [];
  for (let from = 0; from < spectrograms.length; from += BATCH) {
    const batch = spectrograms.slice(from, from + BATCH);
    const out = tf.tidy(() => {
      const levels = batch.map((spectrogram) => tf.tensor3d(normalised(spectrogram), [COLUMNS, BINS, 1]));
      const given = trunk.predict(tf.stack(levels));
      if (Array.isArray(given)) throw new Error("Expected one output of the key-word model.");
      return given;
    });
    const values = await out.data();
    out.dispose();
    const length = values.length / batch.length;
    for (let at = 0; at < batch.length; at++)
      features.push(Float32Array.from(values.subarray(at * length, (at + 1) * length)));
    await each(features.length / spectrograms.length);
  }
  return features;
}

/** The examples for the tail, and by what the library's normalising will have divided them. */
export interface Ballasted {
  readonly columns: readonly Float32Array[];
  readonly scale: number;
}

/** Adds two numbers to each example that make its mean 0 and its deviation the same as everyone's. */
export function ballasted(features: readonly Float32Array[]): Ballasted {
  const sums = features.map((values) => ({
    sum: values.reduce((all, value) => all + value, 0),
    squares: values.reduce((all, value) => all + value * value, 0),
  }));
  const size = (features[0]?.length ?? 0) + BALLAST;
  // Two numbers of sum -s and of squares q exist where q is at least s²/2.
  const most = Math.max(1e-6, ...sums.map(({ sum, squares }) => squares + (sum * sum) / 2));
  const columns = features.map((values, at) => {
    const { sum, squares } = sums[at] ?? { sum: 0, squares: 0 };
    const apart = Math.sqrt(Math.max(0, (most - squares - (sum * sum) / 2) / 2));
    return Float32Array.from([...values, -sum / 2 + apart, -sum / 2 - apart]);
  });
  return { columns, scale: Math.sqrt(most / size) };
}

/** The library's recogniser on the last two layers of a model. */
export async function loadTail(base: Recognizer, scale: number): Promise<Recognizer> {
  const [hidden, head] = [denseOf(base.model.getLayer("hidden")), denseOf(base.model.getLayer("head"))];
  const inputs = hidden.kernel.length / hidden.bias.length;
  const tail = tfl.sequential({
    layers: [
      tfl.layers.cropping2D({
        inputShape: [1, inputs + BALLAST, 1],
        cropping: [
          [0, 0],
          [0, BALLAST],
        ],
      }),
      tfl.layers.depthwiseConv2d({ kernelSize: 1, useBias: false, name: "unscale" }),
      tfl.layers.flatten(),
      tfl.layers.dropout({ rate: 0.3 }),
      tfl.layers.dense({ units: hidden.bias.length, activation: "relu", name: "hidden" }),
      tfl.layers.dense({ units: head.bias.length, activation: "softmax", name: "head" }),
    ],
  });
  try {
    setWeights(tail.getLayer("unscale"), [[Float32Array.of(scale), [1, 1, 1, 1]]]);
    setDense(tail.getLayer("hidden"), hidden);
    setDense(tail.getLayer("head"), head);
    return await loadRecognizer(await artifactsOf(tail));
  } finally {
    tail.dispose();
  }
}

/** A dense layer's weights. */
export function denseOf(layer: tfl.layers.Layer): DenseWeights {
  const [kernel, bias] = layer.getWeights();
  if (!kernel || !bias) throw new Error(`Expected weights and biases in the layer ${layer.name}.`);
  return { kernel: Float32Array.from(kernel.dataSync()), bias: Float32Array.from(bias.dataSync()) };
}

export function setDense(layer: tfl.layers.Layer, { kernel, bias }: DenseWeights): void {
  setWeights(layer, [
    [kernel, [kernel.length / bias.length, bias.length]],
    [bias, [bias.length]],
  ]);
}

function setWeights(layer: tfl.layers.Layer, values: readonly [Float32Array, number[]][]): void {
  const tensors = values.map(([numbers, shape]) => tf.tensor(numbers, shape));
  layer.setWeights(tensors);
  tf.dispose(tensors);
}

async function artifactsOf(model: tfl.LayersModel): Promise<SpotterModel> {
  let made: SpotterModel | null = null;
  const handler = tf.io.withSaveHandler(async ({ modelTopology, weightSpecs = [], weightData }) => {
    if (!modelTopology || !weightData) throw new Error("Expected a model with weights.");
    made = {
      topology: { ...modelTopology },
      specs: weightSpecs.map(({ name, shape }): WeightSpec => ({ name, shape, dtype: "float32" })),
      weights: new Uint8Array(weightData),
    };
    return { modelArtifactsInfo: { dateSaved: new Date(0), modelTopologyType: "JSON" } };
  });
  await model.save(handler);
  if (!made) throw new Error("Expected a model to be written.");
  return made;
}
