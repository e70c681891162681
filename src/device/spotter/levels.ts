import { BINS, COLUMNS } from "./words.ts";

/** As low as it goes, dB: digital silence. */
export const SILENCE = -120;

/** How loud each column of a window is from a bin on and below another, dB of full scale: the power of its bins, added up. */
export function levelsBetween(spectrogram: Float32Array, firstBin: number, endBin: number): number[] {
  return Array.from({ length: COLUMNS }, (_, column) => {
    let power = 0;
    for (let bin = firstBin; bin < endBin; bin++)
      power += 10 ** ((spectrogram[column * BINS + bin] ?? SILENCE) / 10);
    return Math.max(SILENCE, 10 * Math.log10(power));
  });
}
