import * as tf from "@tensorflow/tfjs-core";
import type { LayersModel, layers } from "@tensorflow/tfjs-layers";
import {
  create,
  Dataset,
  type SpeechCommandRecognizer,
  type TransferLearnConfig,
} from "@tensorflow-models/speech-commands";
import type { SpotterModel } from "./base.ts";
import { CLASSES, type Class } from "./words.ts";

// The one place that imports the key-word library. What it keeps to itself in its types and is needed here is looked at as it runs.

/** The library's recogniser with its model loaded. */
export interface Recognizer extends SpeechCommandRecognizer {
  readonly model: LayersModel;
}

const SCHEME = "burnerside-key-words:";
/** Models that are being loaded, by the number in their address. */
const loading = new Map<string, SpotterModel>();
let routed = false;
let count = 0;

/**
 * Loads a model into a recogniser of its own; TensorFlow.js must have its backend set. The library takes a model from memory only with
 * a warning on the console: so it is given an address, which is answered from memory.
 * @throws (rejects) where the library does not take the model
 */
export async function loadRecognizer(model: SpotterModel): Promise<Recognizer> {
  if (!routed) tf.io.registerLoadRouter(answer);
  routed = true;
  const address = `${SCHEME}${count++}`;
  loading.set(address, model);
  try {
    const recognizer = create("BROWSER_FFT", undefined, address, {
      tfjsSpeechCommandsVersion: "0.5.4",
      wordLabels: [...CLASSES],
    });
    await recognizer.ensureModelLoaded();
    if (!hasModel(recognizer)) throw new Error("The key-word library keeps its model elsewhere.");
    return recognizer;
  } finally {
    loading.delete(address);
  }
}

function answer(url: string | string[]): tf.io.IOHandler {
  const model = typeof url === "string" ? loading.get(url) : undefined;
  // Its types do not say so, but null is how a router says "not mine".
  if (!model) return null as unknown as tf.io.IOHandler;
  const { topology, specs, weights } = model;
  return tf.io.fromMemory({
    modelTopology: topology,
    weightSpecs: [...specs],
    weightData: weights.slice().buffer,
  });
}

function hasModel<T extends SpeechCommandRecognizer>(
  recognizer: T,
): recognizer is T & { model: LayersModel } {
  const model: unknown = Reflect.get(recognizer, "model");
  return typeof model === "object" && model !== null;
}

/** The library's transfer learning on a model that takes one column in. */
export interface Transfer {
  /** Those of the examples, in the order of the new last layer. */
  readonly classes: readonly Class[];
  train(config: TransferLearnConfig): Promise<void>;
  /** The new last layer: there is one as soon as the training has begun. */
  head(): layers.Layer;
  /** Lets the new last layer go; what it shares with the model before stays. */
  dispose(): void;
}

/** Examples that the library takes at once: it reads their description as the arguments of one call, which may be only so many. */
const AT_ONCE = 200;

export function createTransfer(
  base: Recognizer,
  examples: readonly { readonly label: Class; readonly values: Float32Array }[],
): Transfer {
  const transfer = base.createTransfer("taught");
  for (let from = 0; from < examples.length; from += AT_ONCE) {
    const dataset = new Dataset();
    for (const { label, values } of examples.slice(from, from + AT_ONCE))
      dataset.addExample({
        label,
        spectrogram: { data: values, frameSize: values.length, keyFrameIndex: 0 },
      });
    transfer.loadExamples(dataset.serialize());
  }
  const words = new Set(transfer.wordLabels());
  const head = (): layers.Layer => {
    const last = hasModel(transfer) ? transfer.model.layers.at(-1) : undefined;
    if (!last) throw new Error("The key-word library keeps its new layer elsewhere.");
    return last;
  };
  return {
    classes: CLASSES.filter((label) => words.has(label)),
    head,
    async train(config) {
      await quietly(() =>
        transfer.train({
          ...config,
          // All of an example is its one column; and all examples are in memory.
          windowHopRatio: 1,
          fitDatasetDurationMillisThreshold: Number.POSITIVE_INFINITY,
        }),
      );
    },
    dispose() {
      if (!hasModel(transfer)) return;
      // It counts by whom it is used: by itself, and by the model that it ends.
      const last = head();
      while (last.dispose().refCountAfterDispose > 0);
    },
  };
}

/** Starts something of the library that tells the console what it starts with, as it starts and never after that. */
function quietly<T>(start: () => T): T {
  const { console } = globalThis;
  const said = console.log;
  console.log = () => undefined;
  try {
    return start();
  } finally {
    console.log = said;
  }
}

/** What the library opened to listen. */
export interface Opened {
  readonly stream: MediaStream | null;
  readonly context: AudioContext | null;
}

/** The library's microphone, also where it failed half-way: it lets go of nothing then, and notices no end of a track. */
export function openedBy(recognizer: Recognizer): Opened {
  const extractor: unknown = Reflect.get(recognizer, "audioDataExtractor");
  if (typeof extractor !== "object" || extractor === null) return { stream: null, context: null };
  const stream: unknown = Reflect.get(extractor, "stream");
  const context: unknown = Reflect.get(extractor, "audioContext");
  return {
    stream: stream instanceof MediaStream ? stream : null,
    context: context instanceof AudioContext ? context : null,
  };
}
