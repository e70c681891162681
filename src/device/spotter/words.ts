/** The words that always work: the figures, and the words that steer. "Minus" is among them because drafts are negative. */
export const KEY_WORDS = [
  "again",
  "eight",
  "five",
  "four",
  "high",
  "low",
  "mark",
  "minus",
  "next",
  "nine",
  "no",
  "one",
  "point",
  "seven",
  "six",
  "stop",
  "three",
  "two",
  "yes",
  "zero",
] as const;
export type KeyWord = (typeof KEY_WORDS)[number];

/** The model's classes in its order: that of the library, which sorts them. */
export const CLASSES = ["_background_noise_", "_unknown_", ...KEY_WORDS] as const;
export type Class = (typeof CLASSES)[number];

/** What the model takes in: this many columns of this many bins, about a second; level in dB as the platform's analyser gives it. */
export const COLUMNS = 43;
export const BINS = 232;
/** Of the sound that the analyser takes in, hertz; a column is 1024 samples, 23.2 ms. */
export const SPOTTER_RATE = 44_100;
