import type { Recording } from "../../../src/device/ears/offline/recording.ts";
import { createResampler } from "../../../src/device/ears/offline/resample.ts";
import { HOP, windowsOf } from "../../../src/device/spotter/spectrogram.ts";
import { COLUMNS, SPOTTER_RATE } from "../../../src/device/spotter/words.ts";
import { NOISES, noise, seeded, withNoise } from "../hearing/noise.ts";

const RATE = 16_000;
/** A window's samples at 16 kHz, and a little more for the first column's run-up. */
const WINDOW = Math.ceil(((COLUMNS + 2) * HOP * RATE) / SPOTTER_RATE);
/** What a microphone and its room hiss at least, as a share of full scale: without it there would be digital silence. */
const HISS = 1e-4;

/** A word in the middle of a stretch of a room's noise, at 16 kHz. */
export interface Placed {
  /** Seconds before the word and after it. */
  readonly room: number;
  /** Speech over noise, dB, of the mean powers from 300 to 3,400 Hz; null for the hiss alone. */
  readonly decibels: number | null;
  readonly seed: number;
  readonly talk: readonly Float32Array[];
}

/** A recording with noise before, during and after it; the kinds of noise take turns with the seed. */
export function placed({ samples }: Recording, { room, decibels, seed, talk }: Placed): Recording {
  const random = seeded(seed);
  const peak = samples.reduce((most, sample) => Math.max(most, Math.abs(sample)), 1e-6);
  const whole = new Float32Array(samples.length + Math.round(2 * room * RATE));
  const from = Math.round(room * RATE);
  for (const [at, sample] of samples.entries()) whole[from + at] = (sample / peak) * 0.3;
  const kind = NOISES[seed % NOISES.length] ?? "burner";
  const noisy =
    decibels === null
      ? whole
      : withNoise({ rate: RATE, samples: whole }, noise(kind, whole.length, RATE, random, talk), decibels)
          .samples;
  return { rate: RATE, samples: noisy.map((sample) => sample + HISS * (random() * 2 - 1)) };
}

/** As the spotter takes a stretch of sound in. */
export async function windowsIn({ samples, rate }: Recording, every: number): Promise<Float32Array[]> {
  const resampler = await createResampler(rate, SPOTTER_RATE, "whole");
  const windows = windowsOf(resampler.resample(samples), every);
  resampler.destroy();
  return windows;
}

/** One window with the whole word in it, as near to its middle as the seed has it. */
export async function windowOf(recording: Recording, how: Omit<Placed, "room">): Promise<Float32Array> {
  const rest = Math.max(0, WINDOW - recording.samples.length) / RATE;
  const about = placed(recording, { ...how, room: rest / 2 + 0.3 });
  const slack = Math.min(0.12, rest / 4);
  const from = Math.round((0.3 + (seeded(how.seed)() * 2 - 1) * slack) * RATE);
  const [window] = await windowsIn(
    { rate: RATE, samples: about.samples.subarray(from, from + WINDOW) },
    COLUMNS,
  );
  if (!window) throw new Error("A stretch of sound is shorter than a window.");
  return window;
}
