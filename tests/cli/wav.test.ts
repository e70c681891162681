import fc from "fast-check";
import { expect, it } from "vitest";
import { readWav } from "../../src/cli/wav.ts";
import { wavOf } from "../support/speech/speak.ts";

const ramp = { rate: 22_050, samples: Float32Array.from({ length: 100 }, (_, index) => index / 100 - 0.5) };

it.each(["8", "16", "24", "32", "32f"] as const)("%s bit comes back as it was", (depth) => {
  const read = readWav(wavOf(ramp, depth));
  if (!read.ok) throw new Error(read.found);
  expect(read.recording.rate).toBe(22_050);
  for (const [index, sample] of read.recording.samples.entries()) {
    expect(sample).toBeCloseTo(ramp.samples[index] ?? 9, depth === "8" ? 1 : 3);
  }
});

/** A header by hand, after the WAVE description (Microsoft and IBM, Multimedia Programming Interface 1.0, 1991). */
const pcm = (channels: number, rate: number, samples: readonly number[]): Uint8Array => {
  const bytes = Buffer.alloc(44 + 2 * samples.length);
  bytes.write("RIFF", 0).toString();
  bytes.writeUInt32LE(36 + 2 * samples.length, 4);
  bytes.write("WAVEfmt ", 8);
  bytes.writeUInt32LE(16, 16);
  bytes.writeUInt16LE(1, 20);
  bytes.writeUInt16LE(channels, 22);
  bytes.writeUInt32LE(rate, 24);
  bytes.writeUInt32LE(2 * channels * rate, 28);
  bytes.writeUInt16LE(2 * channels, 32);
  bytes.writeUInt16LE(16, 34);
  bytes.write("data", 36);
  bytes.writeUInt32LE(2 * samples.length, 40);
  samples.forEach((sample, index) => {
    bytes.writeInt16LE(sample, 44 + 2 * index);
  });
  return bytes;
};

it("takes the mean of two channels", () => {
  const read = readWav(pcm(2, 8_000, [16_384, 0, -16_384, -16_384]));
  expect(read).toEqual({ ok: true, recording: { rate: 8_000, samples: Float32Array.of(0.25, -0.5) } });
});

it.each([3_999, 192_001])("refuses a rate of %i", (rate) => {
  expect(readWav(pcm(1, rate, [0])).ok).toBe(false);
});

it.each([4_000, 192_000])("takes a rate of %i", (rate) => {
  expect(readWav(pcm(1, rate, [0])).ok).toBe(true);
});

/** Where a header says how much there is of what, and may lie (places in `pcm`). */
const NUMBERS = [0, 4, 8, 12, 16, 20, 21, 22, 23, 24, 26, 27, 28, 32, 34, 36, 40, 43];

it("whatever a header claims, it is sound of the file's own bytes or one sentence", () => {
  fc.assert(
    fc.property(
      fc.array(
        fc.tuple(fc.constantFrom(...NUMBERS), fc.constantFrom(0, 1, 2, 3, 24, 32, 64, 127, 128, 255)),
        {
          maxLength: 4,
        },
      ),
      fc.integer({ min: 0, max: 84 }),
      (lies, length) => {
        const bytes = pcm(1, 16_000, Array(20).fill(1000)).slice(0, length);
        for (const [at, value] of lies) if (at < length) bytes[at] = value;
        const read = readWav(bytes);
        if (read.ok) expect(read.recording.samples.length).toBeLessThanOrEqual(40);
        else expect(read.found).toMatch(/^[^\n]+$/);
      },
    ),
    { numRuns: 2000 },
  );
});
