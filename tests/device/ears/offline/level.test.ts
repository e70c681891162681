import { beforeAll, describe, expect, test, vi } from "vitest";
import { soundLevel, TOO_QUIET } from "../../../../src/app/start/sound-level.ts";
import { type NodeEar, openNodeEar } from "../../../../src/cli/hear.ts";
import { loadLanguage } from "../../../../src/cli/language.ts";
import { speak, VOICES } from "../../../support/speech/speak.ts";

// What the microphone check calls too quiet is what the real ear loses. Beside the voice is the noise of a phone's microphone.
vi.setConfig({ testTimeout: 120_000, hookTimeout: 60_000 });

const PHRASE = "high fire CO2 nine point two";
const NOISE = 10 ** (-72 / 20);

let ear: NodeEar;
beforeAll(async () => {
  ear = await openNodeEar(loadLanguage());
});

/** How many of the voices are understood when their loudest sample is `peak` of full scale, in 16 bits. */
async function understood(peak: number): Promise<number> {
  let count = 0;
  for (const voice of VOICES) {
    const { samples, rate } = await speak(PHRASE, voice);
    const loudest = samples.reduce((most, sample) => Math.max(most, Math.abs(sample)), 0);
    const noise = noiseOf();
    const quiet = [...new Float32Array(rate / 2), ...samples, ...new Float32Array(rate)];
    const recorded = Float32Array.from(quiet, (sample) => {
      const full = Math.max(-1, Math.min(1, (sample / loudest) * peak + noise()));
      return Math.round(full * 32_767) / 32_767;
    });
    const { items } = await ear.hear("level", { rate, samples: recorded });
    const [first] = items;
    if (first?.kind === "reading" && first.value === 9.2) count += 1;
  }
  return count;
}

/** Nearly Gaussian, of the standard deviation NOISE, the same every time. */
function noiseOf(): () => number {
  let seed = 1;
  const uniform = () => {
    seed = (Math.imul(seed, 1_664_525) + 1_013_904_223) >>> 0;
    return seed / 2 ** 31 - 1;
  };
  // Twelve uniform numbers have a variance of four.
  return () => (NOISE * Array.from({ length: 12 }, uniform).reduce((sum, one) => sum + one, 0)) / 2;
}

describe("every voice is understood where the level is called good", () => {
  test.each([0.9, TOO_QUIET])("at %d of full scale", async (peak) => {
    expect(soundLevel(peak)).toBe("good");
    expect(await understood(peak)).toBe(VOICES.length);
  });
});

test("where hardly anything is understood it is called too quiet", async () => {
  expect(soundLevel(0.001)).toBe("quiet");
  expect(await understood(0.001)).toBeLessThan(VOICES.length / 2);
});
