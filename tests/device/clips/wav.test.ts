import fc from "fast-check";
import { expect, test } from "vitest";
import wavefile from "wavefile";
import { CLIP_RATE } from "../../../src/device/clips/clip.ts";
import { wavClip } from "../../../src/device/clips/wav.ts";

/** Read back by wavefile, a library that had no part in writing it. */
const read = (sound: Float32Array) => new wavefile.WaveFile(new Uint8Array(wavClip(sound).data));

test("a reader finds mono 16-bit PCM at 16 kHz", () => {
  const { container, fmt } = read(new Float32Array(160));
  expect(container).toBe("RIFF");
  expect(fmt).toMatchObject({
    audioFormat: 1,
    numChannels: 1,
    sampleRate: CLIP_RATE,
    byteRate: 32_000,
    blockAlign: 2,
    bitsPerSample: 16,
  });
});

test.each([
  [0, 0],
  [1, 32_767],
  [-1, -32_767],
  [0.5, 16_384],
  [1.5, 32_767],
  [-7, -32_767],
])("a sample of %d is written as %d", (sample, written) =>
  expect(Array.from(read(new Float32Array([sample])).getSamples(false, Int16Array))).toEqual([written]),
);

test("every sound of full scale 1 comes back within half a step", () =>
  fc.assert(
    fc.property(fc.float32Array({ min: -1, max: 1, noNaN: true, minLength: 1 }), (sound) => {
      const back = Array.from(read(sound).getSamples(false, Int16Array));
      expect(back.length).toBe(sound.length);
      for (const [index, sample] of sound.entries()) {
        expect(Math.abs((back[index] ?? Number.NaN) / 32_767 - sample)).toBeLessThanOrEqual(0.5001 / 32_767);
      }
    }),
  ));
