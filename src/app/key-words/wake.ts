import type { KeyWordHeard } from "../../device/spotter/detect.ts";

/** The word that wakes the phrase recogniser. */
export const WAKE_WORD = "mark";

/** Surer than a word that answers: nobody waits for it (device/spotter/detect.ts). */
const WAKES_FROM = 0.7;

/** Whether a word that stands alone wakes. */
export function wakes({ word, chance }: KeyWordHeard): boolean {
  return word === WAKE_WORD && chance >= WAKES_FROM;
}
