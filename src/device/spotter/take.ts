import { BINS, CLASSES, type Class, COLUMNS } from "./words.ts";

/** One class as a person said it once, or a second of the room. */
export interface Take {
  readonly label: Class;
  /** `COLUMNS` rows of `BINS` levels in dB, as in a window of the spotter. */
  readonly spectrogram: Float32Array;
}

/** @throws (RangeError) naming the first take that is of another size, has no number somewhere, or is all of one level */
export function checkTakes(takes: readonly Take[]): void {
  for (const [at, { label, spectrogram }] of takes.entries()) {
    const where = `take ${at + 1} (${label})`;
    if (!CLASSES.includes(label)) throw new RangeError(`Expected ${where} to be of a known class.`);
    if (spectrogram.length !== COLUMNS * BINS)
      throw new RangeError(`Expected ${COLUMNS * BINS} levels in ${where}, found ${spectrogram.length}.`);
    if (!spectrogram.every(Number.isFinite)) throw new RangeError(`Expected levels in dB in ${where}.`);
    if (spectrogram.every((level) => level === spectrogram[0]))
      throw new RangeError(`Expected sound in ${where}, found one level throughout.`);
  }
}

/** What the library adds to a deviation so as not to divide by nothing. */
const EPSILON = 1e-7;

/** As the library gives it to the model: mean 0, deviation 1. */
export function normalised(spectrogram: Float32Array): Float32Array {
  let [sum, squares] = [0, 0];
  for (const level of spectrogram) sum += level;
  const mean = sum / spectrogram.length;
  for (const level of spectrogram) squares += (level - mean) ** 2;
  const deviation = Math.sqrt(squares / spectrogram.length) + EPSILON;
  return spectrogram.map((level) => (level - mean) / deviation);
}
