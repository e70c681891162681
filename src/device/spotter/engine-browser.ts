import "@tensorflow/tfjs-backend-cpu";
// The key-word library asks a tensor for its `argMax`; a bundle has of such only what is asked for by name.
import "@tensorflow/tfjs-core/dist/public/chained_ops/arg_max";
import { startBackend } from "../ears/offline/backend.ts";
import { placeWasm } from "../ears/offline/wasm-browser.ts";

let started: Promise<unknown> | null = null;

/**
 * Starts what the key-word model computes with, on the thread that asks, once: WebAssembly, else plain script.
 * @throws (rejects) where neither starts; it may be asked again
 */
export async function startSpotterEngine(): Promise<void> {
  if (!started) {
    placeWasm();
    started = startBackend(["wasm", "cpu"]);
  }
  try {
    await started;
  } catch (error) {
    started = null;
    throw error;
  }
}
