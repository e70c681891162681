import { readFile } from "node:fs/promises";
import { startBackend } from "../ears/offline/backend.ts";
import { placeWasm } from "../ears/offline/wasm-node.ts";
import type { BaseModel } from "./base.ts";
import { readBase } from "./read-base.ts";

const FOLDER = new URL("../../../grammars/en/spotter/", import.meta.url);

/** Starts TensorFlow.js on WebAssembly and reads the shipped key-word model. */
export async function loadBaseModel(): Promise<BaseModel> {
  placeWasm();
  await startBackend(["wasm"]);
  const [model, metadata, weights] = await Promise.all([
    readFile(new URL("model.json", FOLDER), "utf8"),
    readFile(new URL("metadata.json", FOLDER), "utf8"),
    readFile(new URL("weights.bin", FOLDER)),
  ]);
  return readBase({ model, metadata, weights: new Uint8Array(weights) });
}
