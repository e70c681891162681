import FFT from "fft.js";
import { BINS, COLUMNS } from "./words.ts";

// What a browser's AnalyserNode gives of a sound, in plain script, for where there is none: section 1.8 of the Web Audio API (W3C
// Recommendation, 17 June 2021), "FFT Windowing and Smoothing over Time", with no smoothing.

/** Samples of one column, as the key-word library sets its analyser. */
const SIZE = 2048;
/** Samples from one column to the next: the library asks every 1024 / 44,100 s. */
export const HOP = 1024;

const ALPHA = 0.16;
/** The Blackman window of the specification. */
const WINDOW = Float64Array.from({ length: SIZE }, (_, at) => {
  const turn = (2 * Math.PI * at) / SIZE;
  return (1 - ALPHA) / 2 - 0.5 * Math.cos(turn) + (ALPHA / 2) * Math.cos(2 * turn);
});
const fft = new FFT(SIZE);

/**
 * The lowest `BINS` levels of one column, in dB of full scale; digital silence is -Infinity.
 * @param samples mono at 44,100 Hz, full scale 1; before their beginning there is silence
 * @param end where the column's last sample ends
 */
export function columnOf(samples: Float32Array, end: number): Float32Array {
  const windowed = Array.from(WINDOW, (weight, at) => weight * (samples[end - SIZE + at] ?? 0));
  const spectrum = fft.createComplexArray();
  fft.realTransform(spectrum, windowed);
  return Float32Array.from({ length: BINS }, (_, bin) => {
    const [re, im] = [spectrum[2 * bin] ?? 0, spectrum[2 * bin + 1] ?? 0];
    return 20 * Math.log10(Math.sqrt(re * re + im * im) / SIZE);
  });
}

/** The columns of a sound, one for each full hop. */
export function columnsOf(samples: Float32Array): Float32Array[] {
  return Array.from({ length: Math.floor(samples.length / HOP) }, (_, at) =>
    columnOf(samples, (at + 1) * HOP),
  );
}

/**
 * `COLUMNS` columns, row by row, as the model takes them in; null where the sound has fewer. Columns of digital silence are left out, as
 * the library does.
 * @param every columns from one window to the next
 */
export function windowsOf(samples: Float32Array, every: number): Float32Array[] {
  const columns = columnsOf(samples).filter((column) => column[0] !== Number.NEGATIVE_INFINITY);
  const windows: Float32Array[] = [];
  for (let from = 0; from + COLUMNS <= columns.length; from += every) {
    const window = new Float32Array(COLUMNS * BINS);
    for (const [at, column] of columns.slice(from, from + COLUMNS).entries()) window.set(column, at * BINS);
    windows.push(window);
  }
  return windows;
}
