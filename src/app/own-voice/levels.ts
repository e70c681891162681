import { levelsBetween, SILENCE } from "../../device/spotter/levels.ts";
import { BINS } from "../../device/spotter/words.ts";

/** Of the analyser's bins (21.5 Hz each) those below 300 Hz are left out: the rumble of a burner and the hum of the mains. */
const FIRST_BIN = 14;
/**
 * How loud each column is, dB of full scale. A sound of one steady loudness comes out 8.2 dB
 * below its RMS, for the analyser's Blackman window has a mean square of 0.305, and its bins are one side of the spectrum.
 */
export function levelsOf(spectrogram: Float32Array): readonly number[] {
  return levelsBetween(spectrogram, FIRST_BIN, BINS);
}

/** What the room sounds like while nobody speaks, dB. */
export interface RoomNoise {
  /** One of ten columns is below: what is left of it while somebody speaks. */
  readonly low: number;
  readonly usual: number;
  /** Hardly ever louder than this: 19 of 20 columns are below. */
  readonly loud: number;
}

/** @param levels at least one */
export function roomNoise(levels: readonly number[]): RoomNoise {
  const sorted = [...levels].sort((a, b) => a - b);
  const at = (share: number) => sorted[Math.floor(share * (sorted.length - 1))] ?? SILENCE;
  return { low: at(0.1), usual: at(0.5), loud: at(0.95) };
}

/** From here on a column is somebody's voice; never below what a breath or a sleeve makes in a quiet room, dB. */
export function voiceFrom({ usual, loud }: RoomNoise): number {
  return Math.max(usual + 6, loud + 3, -65);
}
