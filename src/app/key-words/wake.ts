import { CLASSES } from "../../device/spotter/words.ts";

/** The word that wakes the phrase recogniser. */
export const WAKE_WORD = "mark";

/** Of the score, in each of two windows: a little more than for words that are averaged over three (device/spotter/detect.ts). */
const WAKES_FROM = 0.9;
const MARK_AT = CLASSES.indexOf(WAKE_WORD);

/** Whether a window is sure of the word; two in a row wake. */
export function soundsAwake(scores: Float32Array): boolean {
  return (scores[MARK_AT] ?? 0) >= WAKES_FROM;
}
