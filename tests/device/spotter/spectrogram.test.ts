import fc from "fast-check";
import { describe, expect, test } from "vitest";
import { columnOf, columnsOf, HOP, windowsOf } from "../../../src/device/spotter/spectrogram.ts";
import { BINS, COLUMNS, SPOTTER_RATE } from "../../../src/device/spotter/words.ts";

// Source: Web Audio API, W3C Recommendation 17 June 2021, section 1.8.6 "FFT Windowing and Smoothing over Time": Blackman window with
// alpha 0.16, Fourier transform divided by its size, 20 log10. tests/browser/spotter.test.ts compares it with a browser's own.

const SIZE = 2048;
/** One level as the specification writes it down, sum by sum. */
function levelOf(samples: Float32Array, end: number, bin: number): number {
  const [a0, a1, a2] = [(1 - 0.16) / 2, 1 / 2, 0.16 / 2];
  let [re, im] = [0, 0];
  for (let n = 0; n < SIZE; n++) {
    const turn = (2 * Math.PI * n) / SIZE;
    const windowed = (samples[end - SIZE + n] ?? 0) * (a0 - a1 * Math.cos(turn) + a2 * Math.cos(2 * turn));
    re += windowed * Math.cos(-turn * bin);
    im += windowed * Math.sin(-turn * bin);
  }
  return 20 * Math.log10(Math.hypot(re, im) / SIZE);
}

const noisy = Float32Array.from(
  { length: 3 * SIZE },
  (_, at) => 0.2 * Math.sin(0.1 * at) + 0.1 * Math.sin(at * at),
);

describe("a column", () => {
  test.each([
    [SIZE, 0],
    [SIZE, 33],
    [SIZE + 77, 100],
    [3 * SIZE, BINS - 1],
    // Before the beginning there is silence.
    [HOP, 20],
  ])("ending at sample %i, bin %i, is as the specification has it", (end, bin) =>
    expect(columnOf(noisy, end)[bin]).toBeCloseTo(levelOf(noisy, end, bin), 3),
  );

  // A sine of full scale on a bin: half of its amplitude is there, times the window's mean, 0.42; 20 log10(0.21) = -13.56 dB.
  test("of a sine of full scale is -13.56 dB at its bin", () => {
    const sine = Float32Array.from({ length: SIZE }, (_, at) => Math.sin((2 * Math.PI * 40 * at) / SIZE));
    expect(columnOf(sine, SIZE)[40]).toBeCloseTo(-13.555, 2);
    expect(columnOf(sine, SIZE)[50]).toBeLessThan(-100);
  });

  test("of half the sound is 6.02 dB lower throughout", () =>
    fc.assert(
      fc.property(
        fc.float32Array({ minLength: SIZE, maxLength: SIZE, noNaN: true, min: -1, max: 1 }),
        (sound) => {
          const [whole, half] = [
            columnOf(sound, SIZE),
            columnOf(
              sound.map((sample) => sample / 2),
              SIZE,
            ),
          ];
          for (const [bin, level] of whole.entries())
            if (level > -120) expect(level - (half[bin] ?? 0)).toBeCloseTo(6.02, 1);
        },
      ),
      { numRuns: 20 },
    ));

  test("of digital silence is -Infinity", () =>
    expect(columnOf(new Float32Array(SIZE), SIZE).every((level) => level === Number.NEGATIVE_INFINITY)).toBe(
      true,
    ));
});

describe("columns and windows", () => {
  const second = Float32Array.from({ length: SPOTTER_RATE }, (_, at) => 0.1 * Math.sin(at * at));
  test("43 columns are about a second", () => expect(columnsOf(second)).toHaveLength(COLUMNS));
  test("a window has the columns one after the other", () => {
    const [window] = windowsOf(second, 9);
    expect(window?.subarray(7 * BINS, 8 * BINS)).toEqual(columnsOf(second)[7]);
  });
  test.each([
    ["too little for one", 42, 9, 0],
    ["one", 43, 9, 1],
    ["not yet a second", 51, 9, 1],
    ["two", 52, 9, 2],
    ["each column begins one", 53, 1, 11],
  ])("%s", (_, columns, every, windows) => {
    const sound = Float32Array.from({ length: columns * HOP }, (_, at) => 0.1 * Math.sin(at * at));
    expect(windowsOf(sound, every)).toHaveLength(windows);
  });
  test("digital silence is left out", () => {
    const gap = new Float32Array(20 * HOP);
    const sound = Float32Array.from([...second, ...gap, ...second]);
    // The two columns that reach into sound on either side are kept; the first of silence still reaches back.
    expect(windowsOf(sound, 1)[0]?.every(Number.isFinite)).toBe(true);
    expect(
      columnsOf(sound).filter((column) => column[0] === Number.NEGATIVE_INFINITY).length,
    ).toBeGreaterThan(15);
    expect(windowsOf(sound, 1).every((window) => window.every(Number.isFinite))).toBe(true);
  });
});
