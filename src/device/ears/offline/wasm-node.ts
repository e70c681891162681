import { createRequire } from "node:module";
import { dirname } from "node:path";
import { setWasmPaths } from "@tensorflow/tfjs-backend-wasm";

/** Tells TensorFlow.js where its package has its WebAssembly. */
export function placeWasm(): void {
  const engine = createRequire(import.meta.url).resolve(
    "@tensorflow/tfjs-backend-wasm/dist/tfjs-backend-wasm.wasm",
  );
  setWasmPaths(`${dirname(engine)}/`);
}
