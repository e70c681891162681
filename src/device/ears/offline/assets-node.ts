import { readFile } from "node:fs/promises";
import { createRequire } from "node:module";
import { dirname } from "node:path";
import { setWasmPaths } from "@tensorflow/tfjs-backend-wasm";
import { startBackend } from "./backend.ts";
import type { EarAssets } from "./recogniser.ts";
import { readManifest } from "./weights.ts";

const FOLDER = new URL("../../../../grammars/en/acoustic/", import.meta.url);

/** Starts TensorFlow.js on WebAssembly and reads the shipped weights. */
export async function loadEarAssets(): Promise<EarAssets> {
  const engine = createRequire(import.meta.url).resolve(
    "@tensorflow/tfjs-backend-wasm/dist/tfjs-backend-wasm.wasm",
  );
  setWasmPaths(`${dirname(engine)}/`);
  await startBackend(["wasm"]);
  const [manifest, weights] = await Promise.all([
    readFile(new URL("model.json", FOLDER), "utf8"),
    readFile(new URL("weights.bin", FOLDER)),
  ]);
  return { manifest: readManifest(manifest), weights: new Uint8Array(weights) };
}
