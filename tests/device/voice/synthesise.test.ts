import { describe, expect, test } from "vitest";
import { createSynthesiser, soundOf } from "../../../src/device/voice/synthesise.ts";
import { wavOf } from "../../support/speech/speak.ts";
import { loadVoice } from "../../support/speech/voice-program.ts";

const synthesise = createSynthesiser(await loadVoice());
const seconds = ({ samples, rate }: { samples: Float32Array; rate: number }) => samples.length / rate;
const peak = (samples: Float32Array) => samples.reduce((most, sample) => Math.max(most, Math.abs(sample)), 0);

describe("the packaged synthesiser", () => {
  test("says a text in a speaker's time, loud and at a rate that holds speech", async () => {
    const sound = await synthesise("C O two, nine point two percent.");
    expect(sound.rate).toBe(16_000);
    // People speak 120 to 200 words a minute (common practice, no source): eight words take 2.4 to 4 s; and a lead-in.
    expect(seconds(sound)).toBeGreaterThan(1.8);
    expect(seconds(sound)).toBeLessThan(4.5);
    expect(peak(sound.samples)).toBeCloseTo(0.9, 2);
  });
  test("says more where there is more to say, and each text anew", async () => {
    const [short, long, again] = [
      await synthesise("nine"),
      await synthesise("nine point two"),
      await synthesise("nine"),
    ];
    expect(seconds(long)).toBeGreaterThan(1.3 * seconds(short));
    expect(again).toEqual(short);
  });
  test.each(["", " ", "…"])("has nothing to say for %j", async (text) =>
    expect((await synthesise(text)).samples).toHaveLength(0),
  );
});

describe("a WAV file is read", () => {
  test("16 bit mono, as an independent writer makes it", () => {
    const samples = Float32Array.from([0, 0.5, -0.5, 0.25]);
    const sound = soundOf(wavOf({ samples, rate: 22_050 }));
    expect(sound.rate).toBe(22_050);
    for (const [i, sample] of samples.entries()) expect(sound.samples[i]).toBeCloseTo(sample, 4);
    expect(sound.samples).toHaveLength(4);
  });
  test.each([
    ["nothing", new Uint8Array()],
    ["no WAV", new Uint8Array(100)],
    ["another depth", wavOf({ samples: new Float32Array(10), rate: 8000 }, "8")],
  ])("but not %s", (_, bytes) => expect(() => soundOf(bytes)).toThrow("16 bit mono"));
});
