/**
 * Writes the key-word model in the library's format: `npx tsx grammars/en/spotter/save.ts MODEL.f32 FOLDER`; model.json, weights.bin
 * (16-bit floats) and metadata.json. The layers are those of model.py, its batch norms folded into the convolutions.
 */
import { mkdirSync, readFileSync, writeFileSync } from "node:fs";
import * as tf from "@tensorflow/tfjs-core";
import "@tensorflow/tfjs-backend-cpu";
import * as layers from "@tensorflow/tfjs-layers";
import { BINS, CLASSES, COLUMNS, KEY_WORDS } from "../../../src/device/spotter/words.ts";

const [source = "", folder = ""] = process.argv.slice(2);
const file = readFileSync(source);
const floats = new Float32Array(file.buffer.slice(file.byteOffset, file.byteOffset + file.length));

/** Depthwise kernel, stride, channels after it: BLOCKS of model.py. */
const BLOCKS: readonly [[number, number], [number, number], number][] = [
  [[3, 3], [1, 2], 64],
  [[3, 3], [2, 2], 96],
  [[3, 3], [1, 1], 128],
  [[3, 3], [2, 2], 160],
  [[3, 3], [1, 1], 160],
  [[1, 5], [1, 1], 128],
];

/**
 * How often each class was drawn in training (train.py: batches of key words, of them 6 in 100 cut and nobody's, of other speech and of noise
 * alone). The last layer's biases are set to what they would be had all been drawn alike (logit adjustment; Menon and others, 2021, from
 * memory): who speaks to the app means a key word more often than once in thirty words.
 */
const DRAWN = { background: 0.1, unknown: 0.4, each: 0.5 / KEY_WORDS.length };

await tf.setBackend("cpu");
const model = layers.sequential({
  name: "key-words",
  layers: [
    layers.layers.conv2d({
      name: "front",
      inputShape: [COLUMNS, BINS, 1],
      filters: 24,
      kernelSize: [3, 8],
      strides: [1, 3],
      activation: "relu",
    }),
    ...BLOCKS.flatMap(([kernelSize, strides, filters], at) => [
      layers.layers.depthwiseConv2d({ name: `depth${at}`, kernelSize, strides, useBias: false }),
      layers.layers.conv2d({ name: `point${at}`, filters, kernelSize: 1, activation: "relu" }),
    ]),
    layers.layers.flatten({ name: "flat" }),
    layers.layers.dense({ name: "hidden", units: 128, activation: "relu" }),
    layers.layers.dense({ name: "head", units: CLASSES.length, activation: "softmax" }),
  ],
});

const bias = floats.subarray(floats.length - CLASSES.length);
for (const [place, label] of CLASSES.entries()) {
  const drawn =
    label === "_background_noise_" ? DRAWN.background : label === "_unknown_" ? DRAWN.unknown : DRAWN.each;
  bias[place] = (bias[place] ?? 0) - Math.log(drawn / DRAWN.each);
}

let at = 0;
model.setWeights(
  model.getWeights().map(({ shape }) => {
    const size = tf.util.sizeFromShape(shape);
    at += size;
    return tf.tensor(floats.slice(at - size, at), shape);
  }),
);
if (at !== floats.length) throw new Error(`${source} has ${floats.length} numbers: expected ${at}.`);

await model.save(
  tf.io.withSaveHandler(async ({ modelTopology, weightSpecs = [], weightData }) => {
    const halves = Uint16Array.from(new Float32Array(weightData ?? new ArrayBuffer(0)), half);
    const weights = weightSpecs.map((spec) => ({
      ...spec,
      quantization: { dtype: "float16", original_dtype: "float32" },
    }));
    const manifest = [{ paths: ["weights.bin"], weights }];
    mkdirSync(folder, { recursive: true });
    const described = {
      format: "layers-model",
      generatedBy: "save.ts",
      convertedBy: null,
      modelTopology,
      weightsManifest: manifest,
    };
    writeFileSync(`${folder}/model.json`, `${JSON.stringify(described, null, 1)}\n`);
    writeFileSync(`${folder}/weights.bin`, Buffer.from(halves.buffer));
    const metadata = { tfjsSpeechCommandsVersion: "0.5.4", modelName: "key-words", wordLabels: CLASSES };
    writeFileSync(`${folder}/metadata.json`, `${JSON.stringify(metadata, null, 1)}\n`);
    return { modelArtifactsInfo: { dateSaved: new Date(0), modelTopologyType: "JSON" } };
  }),
);

/** IEEE 754 binary16 of a number, rounded to the nearest; what is too small becomes 0. */
function half(value: number): number {
  const sign = value < 0 || Object.is(value, -0) ? 0x8000 : 0;
  const size = Math.abs(value);
  if (size < 2 ** -24) return sign;
  if (size > 65_504) throw new Error(`${value} does not fit into 16 bits.`);
  const exponent = Math.max(-14, Math.floor(Math.log2(size)));
  const steps = Math.round((size / 2 ** exponent) * 1024);
  // Rounded up to the next power of two, or below the smallest normal number: the same sum says both.
  return sign + (exponent + 14) * 1024 + steps;
}
