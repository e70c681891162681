import fc from "fast-check";
import { describe, expect, test } from "vitest";
import { augmented, mixed, seeded, shifted } from "../../../src/device/spotter/augment.ts";
import { normalised } from "../../../src/device/spotter/take.ts";
import { BINS, COLUMNS } from "../../../src/device/spotter/words.ts";
import { madeTakes } from "../../support/spotter-takes.ts";

const HOW = { shifted: 2, noisy: 3, shiftColumns: 6, speechOverNoise: [0, 20] } as const;
const [room, word] = [madeTakes(1, 2)[0], madeTakes(1, 2)[1]];
if (!room || !word) throw new Error("Expected two takes.");
const column = (of: Float32Array, at: number) => of.subarray(at * BINS, (at + 1) * BINS);

test("each take is kept, and has as many copies as asked, of its own class", () => {
  const all = augmented([room, word], HOW, seeded(1));
  expect(all.map(({ label }) => label)).toEqual([
    ...Array(6).fill("_background_noise_"),
    ...Array(6).fill("_unknown_"),
  ]);
  expect(all[0]).toBe(room);
  expect(all[6]).toBe(word);
});

test("all of it is finite, also without any noise of the room", () => {
  for (const takes of [[room, word], [word]])
    for (const { spectrogram } of augmented(takes, HOW, seeded(7)))
      expect(spectrogram.every(Number.isFinite)).toBe(true);
});

test("the same seed gives the same copies, another gives others", () => {
  const last = (seed: number) => augmented([room, word], HOW, seeded(seed)).at(-1)?.spectrogram;
  expect(last(3)).toEqual(last(3));
  expect(last(3)).not.toEqual(last(4));
});

test("shifted columns stay what they are, and what comes in is one of its own quiet columns", () =>
  fc.assert(
    fc.property(fc.integer({ min: -20, max: 20 }), fc.integer(), (by, seed) => {
      const out = shifted(word.spectrogram, by, seeded(seed));
      const loudest = Math.max(...word.spectrogram);
      for (let at = 0; at < COLUMNS; at++) {
        const from = at - by;
        const [here, there] = [column(out, at), column(word.spectrogram, from)];
        if (from >= 0 && from < COLUMNS)
          expect(Math.max(...here.map((level, bin) => Math.abs(level - (there[bin] ?? 0))))).toBeLessThan(
            1e-3,
          );
        else expect(Math.max(...column(out, at))).toBeLessThan(loudest - 20);
      }
    }),
    { numRuns: 20 },
  ));

describe("mixing adds powers", () => {
  // Two sounds of the same power: 10 log10(2) = 3.01 dB more; a tenth: 0.41; a hundredth: 0.043.
  test.each([
    [0, 3.01],
    [10, 0.414],
    [20, 0.0432],
  ])("at %i dB over the noise it is %f dB louder", (over, louder) => {
    const flat = new Float32Array(COLUMNS * BINS).fill(-60);
    const noise = new Float32Array(COLUMNS * BINS).fill(-95);
    const out = mixed(flat, noise, over);
    expect([Math.min(...out) + 60, Math.max(...out) + 60]).toEqual([
      expect.closeTo(louder, 2),
      expect.closeTo(louder, 2),
    ]);
  });
  test("never quieter than without", () => {
    const out = mixed(word.spectrogram, room.spectrogram, 5);
    expect(out.every((level, at) => level >= (word.spectrogram[at] ?? 0) - 1e-4)).toBe(true);
  });
});

test("normalised: mean 0 and deviation 1, and loudness falls out", () => {
  const out = normalised(word.spectrogram);
  const mean = out.reduce((sum, value) => sum + value, 0) / out.length;
  const squares = out.reduce((sum, value) => sum + value * value, 0) / out.length;
  expect([mean, squares]).toEqual([expect.closeTo(0, 4), expect.closeTo(1, 4)]);
  const louder = normalised(word.spectrogram.map((level) => level + 12));
  expect(Math.max(...out.map((value, at) => Math.abs(value - (louder[at] ?? 0))))).toBeLessThan(1e-4);
});
