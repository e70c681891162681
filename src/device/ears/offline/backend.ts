import * as tf from "@tensorflow/tfjs-core";

/** Which of TensorFlow.js's backends computes. */
export type Backend = "wasm" | "webgl" | "cpu";

/**
 * Sets the first backend that starts, in the order given; their packages must have been imported (assets-*.ts).
 * @throws (rejects) where none does
 */
export async function startBackend(order: readonly Backend[]): Promise<Backend> {
  for (const backend of order) {
    if (await tf.setBackend(backend).catch(() => false)) return backend;
  }
  throw new Error(`None of the engines to compute with starts here: ${order.join(", ")}.`);
}
