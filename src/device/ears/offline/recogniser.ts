import type { Rnnoise } from "@shiguredo/rnnoise-wasm";
import type { Utterance } from "../../../meaning/heard.ts";
import type { EarLanguage } from "../../../meaning/network.ts";
import { judgeFound } from "./confidence.ts";
import { createDenoiser, DENOISE_FRAME, DENOISE_RATE } from "./denoise.ts";
import { type EndpointState, endpoint, QUIET, RUN_UP_FRAMES } from "./endpoint.ts";
import { createResampler } from "./resample.ts";
import { createSearch, SEARCH_RATE } from "./search.ts";
import { type SphinxAssets, startSphinx } from "./sphinx.ts";

/** Everything that has to be loaded before; each platform loads in its own way (assets-node.ts, assets-browser.ts). */
export interface EarAssets {
  readonly sphinx: SphinxAssets;
  readonly rnnoise: Rnnoise;
}

/** What comes out of the chain while sound goes in. */
export type Sounded =
  | { readonly kind: "level"; readonly loudness: number; readonly voice: number }
  | { readonly kind: "utterance"; readonly utterance: Utterance };

/** The offline chain: 48 kHz sound in, utterances out. The same in a browser's worker and in Node. */
export interface Recogniser {
  /** Takes any number of mono samples at 48 kHz, full scale 1. */
  hear(samples: Float32Array): Sounded[];
  /** Ends an utterance that is still open, as at the end of a file. */
  finish(): Sounded[];
  /** Drops what was heard of an open utterance. */
  reset(): void;
  destroy(): void;
}

/** Frames of quiet kept after the last voiced one; the rest of the pause tells the search nothing. */
const KEPT_TAIL_FRAMES = 30;
/** Frames between two levels: five a second. */
const LEVEL_FRAMES = 20;

/**
 * @param clock milliseconds, for the compute time it reports
 * @throws (rejects) if the engine does not start or the language has words without a pronunciation
 */
export async function createRecogniser(
  assets: EarAssets,
  language: EarLanguage,
  clock: () => number,
): Promise<Recogniser> {
  const sphinx = await startSphinx(assets.sphinx);
  const resampler = await createResampler(DENOISE_RATE, SEARCH_RATE, "whole");
  const denoiser = createDenoiser(assets.rnnoise);
  const search = createSearch(sphinx, language);

  let rest = new Float32Array(0);
  let state: EndpointState = QUIET;
  let frames: Float32Array[] = [];
  let spent = 0;
  let level = { frames: 0, loudness: 0, voice: 0 };

  const understand = (): Sounded => {
    const kept = frames.slice(0, frames.length - Math.max(0, state.run - KEPT_TAIL_FRAMES));
    const before = clock();
    const sound = resampler.resample(joined(kept));
    const found = search.find(sound);
    spent += clock() - before;
    const { hypothesis, rejected } = judgeFound(found);
    const utterance: Utterance = {
      engine: "offline",
      hypotheses: hypothesis.words.length > 0 ? [hypothesis] : [],
      rejected,
      audioSeconds: (kept.length * DENOISE_FRAME) / DENOISE_RATE,
      computeSeconds: spent / 1000,
      sound,
    };
    return { kind: "utterance", utterance };
  };

  const hearFrame = (frame: Float32Array): Sounded[] => {
    const before = clock();
    const { clean, voice } = denoiser.frame(frame);
    spent += clock() - before;
    frames.push(clean);
    const out: Sounded[] = measure(frame, voice);
    const { step, state: next } = endpoint(state, voice);
    if (step === "end") out.push(understand());
    state = next;
    if (step === "end" || step === "drop") restart();
    if (step === "quiet") frames = frames.slice(-RUN_UP_FRAMES);
    if (step === "quiet") spent = 0;
    return out;
  };

  const measure = (frame: Float32Array, voice: number): Sounded[] => {
    const loudness = frame.reduce((most, sample) => Math.max(most, Math.abs(sample)), 0);
    level = {
      frames: level.frames + 1,
      loudness: Math.max(level.loudness, Math.min(1, loudness)),
      voice: Math.max(level.voice, voice),
    };
    if (level.frames < LEVEL_FRAMES) return [];
    const heard: Sounded = { kind: "level", loudness: level.loudness, voice: level.voice };
    level = { frames: 0, loudness: 0, voice: 0 };
    return [heard];
  };

  const restart = (): void => {
    state = QUIET;
    frames = [];
    spent = 0;
  };

  return {
    hear(samples) {
      const all = joined([rest, samples]);
      const out: Sounded[] = [];
      let at = 0;
      for (; at + DENOISE_FRAME <= all.length; at += DENOISE_FRAME) {
        out.push(...hearFrame(all.slice(at, at + DENOISE_FRAME)));
      }
      rest = all.slice(at);
      return out;
    },
    finish() {
      const out = state.speaking ? [understand()] : [];
      restart();
      return out;
    },
    reset() {
      rest = new Float32Array(0);
      restart();
      denoiser.reset();
    },
    destroy() {
      denoiser.destroy();
      resampler.destroy();
    },
  };
}

function joined(parts: readonly Float32Array[]): Float32Array<ArrayBuffer> {
  const all = new Float32Array(parts.reduce((sum, part) => sum + part.length, 0));
  let at = 0;
  for (const part of parts) {
    all.set(part, at);
    at += part.length;
  }
  return all;
}
