import * as tf from "@tensorflow/tfjs-core";
import * as tfl from "@tensorflow/tfjs-layers";
import { startBackend } from "../../src/device/ears/offline/backend.ts";
import { placeWasm } from "../../src/device/ears/offline/wasm-node.ts";
import { seeded } from "../../src/device/spotter/augment.ts";
import type { BaseModel } from "../../src/device/spotter/base.ts";
import { readBase, type SpotterFiles } from "../../src/device/spotter/read-base.ts";
import { BINS, CLASSES, COLUMNS } from "../../src/device/spotter/words.ts";

/** A key-word model of the shipped one's inputs and last two layers, that has learned nothing: its weights are by chance, the same ones each time. */
export async function untrainedFiles(): Promise<SpotterFiles> {
  placeWasm();
  await startBackend(["wasm"]);
  const convolution = (filters: number, size: [number, number]) =>
    ({ filters, kernelSize: size, strides: size, padding: "same", activation: "relu" }) as const;
  const model = tfl.sequential({
    layers: [
      tfl.layers.conv2d({ ...convolution(8, [4, 8]), inputShape: [COLUMNS, BINS, 1] }),
      tfl.layers.conv2d(convolution(48, [3, 8])),
      tfl.layers.flatten(),
      tfl.layers.dense({ units: 128, activation: "relu", name: "hidden" }),
      tfl.layers.dense({ units: CLASSES.length, activation: "softmax", name: "head" }),
    ],
  });
  const chance = seeded(1);
  // Spread as He and others (2015) have it: what goes in comes out about as strong.
  const weights = model.getWeights().map(({ shape, size }) => {
    const spread = shape.length === 1 ? 0 : Math.sqrt((6 * (shape.at(-1) ?? 1)) / size);
    return tf.tensor(
      Float32Array.from({ length: size }, () => spread * (2 * chance() - 1)),
      shape,
    );
  });
  model.setWeights(weights);
  tf.dispose(weights);
  let files: SpotterFiles | null = null;
  const handler = tf.io.withSaveHandler(async ({ modelTopology, weightSpecs, weightData }) => {
    files = {
      model: JSON.stringify({
        format: "layers-model",
        modelTopology,
        weightsManifest: [{ paths: ["weights.bin"], weights: weightSpecs }],
      }),
      metadata: JSON.stringify({ tfjsSpeechCommandsVersion: "0.5.4", wordLabels: CLASSES }),
      weights: new Uint8Array(weightData ?? new ArrayBuffer()),
    };
    return { modelArtifactsInfo: { dateSaved: new Date(0), modelTopologyType: "JSON" } };
  });
  await model.save(handler);
  model.dispose();
  if (!files) throw new Error("Expected the model to be written.");
  return files;
}

export async function untrainedBase(): Promise<BaseModel> {
  return readBase(await untrainedFiles());
}
