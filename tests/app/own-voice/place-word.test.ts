import fc from "fast-check";
import { describe, expect, test } from "vitest";
import { levelsOf, roomNoise, voiceFrom } from "../../../src/app/own-voice/levels.ts";
import { placeWord, voiceShare } from "../../../src/app/own-voice/place-word.ts";
import { windowsOf } from "../../../src/device/spotter/spectrogram.ts";
import { COLUMNS, SPOTTER_RATE } from "../../../src/device/spotter/words.ts";

/** A second and a half of a tone of this frequency (Hz) and RMS (dB of full scale), as the analyser takes it in. */
function tone(frequency: number, rms: number): readonly number[] {
  const peak = Math.SQRT2 * 10 ** (rms / 20);
  const samples = Float32Array.from(
    { length: 1.5 * SPOTTER_RATE },
    (_, at) => peak * Math.sin((2 * Math.PI * frequency * at) / SPOTTER_RATE),
  );
  return levelsOf(windowsOf(samples, 9).at(-1) ?? new Float32Array());
}

describe("how loud a column is", () => {
  // By hand: the mean square of a Blackman window is 0.42² + 0.5² / 2 + 0.08² / 2 = 0.3046; half of it on one side: -8.2 dB.
  test.each([
    [440, -20],
    [1000, -6],
    [3000, -40],
  ])("a tone of %d Hz and an RMS of %d dB: 8.2 dB below that", (frequency, rms) => {
    for (const level of tone(frequency, rms)) expect(level).toBeCloseTo(rms - 8.2, 0);
  });

  test("the hum of the mains and the rumble of a burner hardly count", () => {
    for (const frequency of [50, 60, 120])
      for (const level of tone(frequency, -20)) expect(level).toBeLessThan(-70);
  });

  test("digital silence is a number", () =>
    expect(levelsOf(new Float32Array(43 * 232).fill(Number.NEGATIVE_INFINITY))).toEqual(
      Array(43).fill(-120),
    ));
});

describe("from where on somebody speaks", () => {
  test.each<[string, number[], number]>([
    ["steady noise", Array(100).fill(-50), -44],
    ["noise that goes up and down", [...Array(90).fill(-50), ...Array(10).fill(-40)], -37],
    ["a quiet room", Array(100).fill(-90), -65],
  ])("%s", (_, levels, from) => expect(voiceFrom(roomNoise(levels))).toBe(from));
});

/** A window of noise with stretches of voice, from column to column (without the last one). */
const windowOf = (...voices: readonly (readonly [from: number, to: number, level?: number])[]) =>
  Array.from({ length: COLUMNS }, (_, column) => {
    const voice = voices.find(([from, to]) => from <= column && column < to);
    return voice ? (voice[2] ?? -30) : -70;
  });

describe("where a word lies", () => {
  test.each<[string, readonly number[], object]>([
    ["nobody speaks", windowOf(), { kind: "nothing" }],
    ["a click", windowOf([20, 23]), { kind: "nothing" }],
    ["in the middle", windowOf([11, 32]), { kind: "whole", past: 0, peak: -30 }],
    ["yet to come to the middle", windowOf([20, 41]), { kind: "whole", past: -9, peak: -30 }],
    ["past the middle", windowOf([1, 22]), { kind: "whole", past: 10, peak: -30 }],
    ["with the mouth closed in between", windowOf([10, 20], [29, 33]), { kind: "whole", past: 0, peak: -30 }],
    ["with its breath after it", windowOf([11, 32], [32, 42, -62]), { kind: "whole", past: 0, peak: -30 }],
    ["it goes on", windowOf([20, 43]), { kind: "coming" }],
    ["it began before", windowOf([0, 20]), { kind: "cut" }],
    ["it fills the window", windowOf([0, 43]), { kind: "more" }],
    ["two words", windowOf([3, 13], [30, 41, -35]), { kind: "more" }],
    [
      "a word, and another voice far off",
      windowOf([3, 13], [30, 41, -50]),
      { kind: "whole", past: 13.5, peak: -30 },
    ],
  ])("%s", (_, levels, placed) => expect(placeWord(levels, -64)).toEqual(placed));

  test("of windows that overlap one has the word whole, and no further from its middle than half a step", () =>
    fc.assert(
      fc.property(
        fc.integer({ min: 4, max: 32 }),
        fc.integer({ min: 60, max: 90 }),
        fc.integer({ min: 5, max: 9 }),
        (length, first, step) => {
          const found: number[] = [];
          for (let start = 0; start < 120; start += step) {
            const placed = placeWord(windowOf([first - start, first + length - start]), -64);
            if (placed.kind === "whole") found.push(Math.abs(placed.past));
          }
          expect(Math.min(...found)).toBeLessThanOrEqual(step / 2);
        },
      ),
    ));

  test("how much of a window is voice", () => expect(voiceShare(windowOf([0, 43]), -64)).toBe(1));
});
