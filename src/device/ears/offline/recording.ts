import type { Utterance } from "../../../meaning/heard.ts";
import type { EarLanguage } from "../../../meaning/network.ts";
import { EAR_RATE } from "./mel.ts";
import { createRecogniser, type EarAssets } from "./recogniser.ts";
import { createResampler } from "./resample.ts";

/** A recording: one channel, full scale 1. */
export interface Recording {
  readonly samples: Float32Array;
  /** In hertz. */
  readonly rate: number;
}

/** Quiet laid before and after, in seconds: a run-up for the first word, and a flush for the resampler. */
const QUIET_SECONDS = 0.5;

/**
 * Hears one recording from beginning to end, with a recogniser of its own, so that no recording colours the next.
 * @param clock milliseconds, for the compute time
 */
export async function hearRecording(
  assets: EarAssets,
  language: EarLanguage,
  { samples, rate }: Recording,
  clock: () => number,
): Promise<readonly Utterance[]> {
  const recogniser = createRecogniser(assets, language, clock);
  const resampler = await createResampler(rate, EAR_RATE, "stream");
  try {
    const quiet = new Float32Array(Math.round(QUIET_SECONDS * rate));
    const heard = [quiet, ...seconds(samples, rate), quiet].flatMap((piece) =>
      recogniser.hear(resampler.resample(piece)),
    );
    heard.push(...recogniser.finish());
    return heard.flatMap((sounded) => (sounded.kind === "utterance" ? [sounded.utterance] : []));
  } finally {
    resampler.destroy();
    recogniser.destroy();
  }
}

/** In pieces small enough for the resampler's buffers. */
function seconds(samples: Float32Array, rate: number): Float32Array[] {
  const count = Math.ceil(samples.length / rate);
  return Array.from({ length: count }, (_, index) => samples.subarray(index * rate, (index + 1) * rate));
}
