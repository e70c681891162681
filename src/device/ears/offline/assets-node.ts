import { readFile } from "node:fs/promises";
import { startBackend } from "./backend.ts";
import type { EarAssets } from "./recogniser.ts";
import { placeWasm } from "./wasm-node.ts";
import { readManifest } from "./weights.ts";

const FOLDER = new URL("../../../../grammars/en/acoustic/", import.meta.url);

/** Starts TensorFlow.js on WebAssembly and reads the shipped weights. */
export async function loadEarAssets(): Promise<EarAssets> {
  placeWasm();
  await startBackend(["wasm"]);
  const [manifest, weights] = await Promise.all([
    readFile(new URL("model.json", FOLDER), "utf8"),
    readFile(new URL("weights.bin", FOLDER)),
  ]);
  return { manifest: readManifest(manifest), weights: new Uint8Array(weights) };
}
