import { setFlagsFromString } from "node:v8";
import { runInNewContext } from "node:vm";
import * as tf from "@tensorflow/tfjs-core";

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

/** How much more may be held in the last quarter than in the second: a share, and at least so many bytes. */
interface Margin {
  readonly share: number;
  readonly bytes: number;
}

/** Caches fill and V8's pages come and go; a leak of a kilobyte an utterance would show as 0.4 MiB in four hours, one of each frame as gigabytes. */
export const MARGINS: Readonly<Record<keyof Held, Margin>> = {
  heap: { share: 0.05, bytes: 4 * 2 ** 20 },
  outside: { share: 0.05, bytes: 4 * 2 ** 20 },
  rss: { share: 0.05, bytes: 24 * 2 ** 20 },
  tensors: { share: 0, bytes: 0 },
  arena: { share: 0, bytes: 0 },
};

/** The mean of a stretch of samples. */
export function mean(samples: readonly Held[], what: keyof Held): number {
  return samples.reduce((sum, sample) => sum + sample[what], 0) / samples.length;
}

/** Whether the last quarter holds no more than the second, within the margin. */
export function isFlat(second: number, last: number, what: keyof Held): boolean {
  const { share, bytes } = MARGINS[what];
  return last <= second + Math.max(share * second, bytes);
}
