import wavefile from "wavefile";
import { z } from "zod";
import type { Recording } from "../device/ears/offline/recording.ts";

export type WavRead =
  | { readonly ok: true; readonly recording: Recording }
  | { readonly ok: false; readonly found: string };

/** What a recording must be. */
export const WAV_EXPECTED =
  "a WAV file, 8, 16, 24 or 32 bit PCM or float, 4000 to 192000 Hz, at most 10 minutes long and 256 MiB large";

/** Ten minutes in stereo of 16 bit at 48 kHz are less than half of it; what is unpacked takes up to eight times as much. */
export const LARGEST_BYTES = 256 * 1024 * 1024;

/** How a sample becomes full scale 1, by the library's name of the sample format. */
const SCALES = new Map<string, (sample: number) => number>([
  // 8-bit samples alone are unsigned.
  ["8", (sample) => (sample - 128) / 128],
  ["16", (sample) => sample / 2 ** 15],
  ["24", (sample) => sample / 2 ** 23],
  ["32", (sample) => sample / 2 ** 31],
  ["32f", (sample) => sample],
  ["64", (sample) => sample],
]);
const MOST_SECONDS = 600;

const Format = z.object({
  sampleRate: z.number().int().min(4_000).max(192_000),
  numChannels: z.number().int().min(1).max(64),
});

/** Reads the bytes of a WAV file; of several channels the mean is taken. */
export function readWav(bytes: Uint8Array): WavRead {
  let wav: wavefile.WaveFile;
  try {
    wav = new wavefile.WaveFile(bytes);
  } catch (error) {
    const reason = error instanceof Error ? error.message : String(error);
    return { ok: false, found: reason.replace(/\.$/, "") };
  }
  const format = Format.safeParse(wav.fmt);
  if (!format.success) {
    const [issue] = format.error.issues;
    return { ok: false, found: `${issue?.path.join(".")}: ${issue?.message}` };
  }
  const scale = SCALES.get(wav.bitDepth);
  if (!scale) return { ok: false, found: `sample format ${wav.bitDepth}` };
  const { sampleRate: rate, numChannels: channels } = format.data;
  const interleaved = wav.getSamples(true);
  const length = Math.floor(interleaved.length / channels);
  if (length === 0) return { ok: false, found: "no sound" };
  if (length > MOST_SECONDS * rate) return { ok: false, found: `${Math.round(length / rate)} seconds` };
  const samples = new Float32Array(length);
  for (let at = 0; at < length; at++) {
    const frame = interleaved.subarray(at * channels, (at + 1) * channels);
    const mean = frame.reduce((sum, sample) => sum + scale(sample), 0) / channels;
    samples[at] = Number.isFinite(mean) ? Math.max(-1, Math.min(1, mean)) : 0;
  }
  return { ok: true, recording: { samples, rate } };
}
