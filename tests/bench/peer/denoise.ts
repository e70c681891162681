import type { Rnnoise } from "@shiguredo/rnnoise-wasm";

/** The rate that RNNoise works at, in hertz, and its frame: 10 ms. */
export const DENOISE_RATE = 48_000;
export const DENOISE_FRAME = 480;

/** RNNoise takes floats on the scale of 16-bit samples. */
const SCALE = 32_768;

/**
 * Share of the untouched sound left in: RNNoise's cuts leave holes that the search hears as other phones. Chosen by trying
 * 0, 0.03, 0.05, 0.1 and 0.25 with tests/bench/hearing.ts: a little helps in quiet and in noise, a quarter hurts in noise.
 */
const UNTOUCHED = 0.03;

export interface Denoised {
  /** 480 samples, full scale 1, with the noise turned down. */
  readonly clean: Float32Array;
  /** Probability of a voice, 0 to 1. */
  readonly voice: number;
}

export interface Denoiser {
  /** One frame of 480 samples at 48 kHz, full scale 1; frames follow one another without gaps. */
  frame(samples: Float32Array): Denoised;
  /** Forgets what it has heard, as before the first frame. */
  reset(): void;
  destroy(): void;
}

/** RNNoise: turns steady noise down and says how likely a voice is. */
export function createDenoiser(rnnoise: Rnnoise): Denoiser {
  let state = rnnoise.createDenoiseState();
  return {
    frame(samples) {
      const clean = Float32Array.from(samples, (sample) => sample * SCALE);
      const voice = state.processFrame(clean);
      const mixed = clean.map(
        (sample, index) => (1 - UNTOUCHED) * (sample / SCALE) + UNTOUCHED * (samples[index] ?? 0),
      );
      return { clean: mixed, voice };
    },
    reset() {
      state.destroy();
      state = rnnoise.createDenoiseState();
    },
    destroy: () => state.destroy(),
  };
}
