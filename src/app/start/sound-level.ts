/** How loud a voice is for the ear. */
export type SoundLevel = "quiet" | "good" | "loud";

/**
 * Peaks of full scale. Measured on 12 recordings (three phrases in four voices, the noise of a phone's microphone at -72
 * dB beside them) at falling loudness: all were heard from 0.5 down to 0.02 (-34 dB), 11 at 0.01 and at 0.006, 5 at 0.002,
 * none at 0.001 (tests/device/ears/offline/level.test.ts holds a part of it). At twice full scale, cut off there, all were still heard, at four times 9: what touches full scale is
 * told before it costs words.
 */
export const TOO_QUIET = 0.02;
export const TOO_LOUD = 0.99;

/** @param peak largest value of the sound while somebody spoke, 0 to 1 of full scale */
export function soundLevel(peak: number): SoundLevel {
  if (peak < TOO_QUIET) return "quiet";
  return peak >= TOO_LOUD ? "loud" : "good";
}

/** The quietest sound that the meter shows, dB under full scale. */
const LOWEST_DB = -60;

/** Where a loudness stands on the meter, 0 to 1: in decibels, as ears hear. */
export function onMeter(loudness: number): number {
  if (loudness <= 0) return 0;
  return Math.min(1, Math.max(0, 1 - (20 * Math.log10(loudness)) / LOWEST_DB));
}
