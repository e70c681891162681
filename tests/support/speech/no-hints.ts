import type { Hints } from "../../../src/meaning/hints.ts";

/** Of a language of words alone. */
export const NO_HINTS: Hints = {
  magnitudes: [],
  joints: [],
  points: [],
  numerals: [],
  plurals: [],
  singulars: [],
};
