import { setFlagsFromString } from "node:v8";
import { runInNewContext } from "node:vm";
import * as tf from "@tensorflow/tfjs-core";
import type { Margin } from "./flat.ts";

/** What a process holds, after everything that nothing refers to was collected. Bytes, but for the tensors. */
export interface Held {
  readonly heap: number;
  /** Outside of V8's heap: typed arrays, the memory of WebAssembly with them. */
  readonly outside: number;
  readonly rss: number;
  readonly tensors: number;
  /** The memory of TensorFlow.js's WebAssembly. */
  readonly arena: number;
}

setFlagsFromString("--expose-gc");
const collect: () => void = runInNewContext("gc");

export async function held(): Promise<Held> {
  // What only a finished task referred to goes in the second round.
  for (let round = 0; round < 3; round += 1) {
    collect();
    await new Promise<void>((resolve) => setImmediate(resolve));
  }
  const { heapUsed, external, rss } = process.memoryUsage();
  return { heap: heapUsed, outside: external, rss, tensors: tf.memory().numTensors, arena: arenaBytes() };
}

/** Not in the library's types, but of its class. */
function arenaBytes(): number {
  const { wasm } = tf.backend() as { wasm?: { HEAPU8?: Uint8Array } };
  if (!wasm?.HEAPU8) throw new Error("Expected TensorFlow.js on WebAssembly, found no memory of it.");
  return wasm.HEAPU8.buffer.byteLength;
}

const MIB = 2 ** 20;

/** Caches fill and V8's pages come and go; a leak of a kilobyte an utterance would show as 0.4 MiB in four hours, one of each frame as gigabytes. */
export const MARGINS: Readonly<Record<keyof Held, Margin>> = {
  heap: { share: 0.05, amount: 4 * MIB, unit: "MiB" },
  outside: { share: 0.05, amount: 4 * MIB, unit: "MiB" },
  rss: { share: 0.05, amount: 24 * MIB, unit: "MiB" },
  tensors: { share: 0, amount: 0, unit: "" },
  arena: { share: 0, amount: 0, unit: "MiB" },
};
