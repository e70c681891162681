import { beforeAll, expect, it, vi } from "vitest";
import type { HeardFile } from "../../src/cli/hear.ts";
import type { Recording } from "../../src/device/ears/offline/recording.ts";
import { createResampler } from "../../src/device/ears/offline/resample.ts";
import { cliProcess } from "../support/cli.ts";
import { testFolder } from "../support/folder.ts";
import { speak, wavOf } from "../support/speech/speak.ts";

vi.setConfig({ testTimeout: 60_000, hookTimeout: 60_000 });

const { path: folder, file } = testFolder();

let phrase: Recording;
beforeAll(async () => {
  phrase = await speak("CO2 nine point two", "rms");
});

const resampled = async (to: number): Promise<Recording> => {
  const resampler = await createResampler(phrase.rate, to, "whole");
  return { rate: to, samples: resampler.resample(phrase.samples) };
};

it("hears files of any rate and depth, one line each, in the order given", async () => {
  const files = [
    file("16k.wav", wavOf(phrase)),
    file("44k-24.wav", wavOf(await resampled(44_100), "24")),
    file("48k-float.wav", wavOf(await resampled(48_000), "32f")),
  ];
  const { status, err, rows } = await cliProcess(["hear", ...files]);
  expect([status, err]).toEqual([0, ""]);
  for (const [index, row] of (rows as HeardFile[]).entries()) {
    expect(row).toMatchObject({
      file: files[index],
      words: "co2 nine point two",
      rejected: false,
      items: [{ kind: "reading", quantity: "co2", value: 9.2, unit: "%" }],
      unsure: [],
    });
    expect(row.confidence).toBeGreaterThan(0.5);
    expect(row.confidence).toBeLessThanOrEqual(1);
    expect(row.audioSeconds).toBeCloseTo(phrase.samples.length / phrase.rate, 1);
    expect(row.computeSeconds).toBeGreaterThan(0);
  }
  expect(rows).toHaveLength(3);
});

it("an unreadable file is named with what was expected; the others still run", async () => {
  const files = [
    file("text.wav", "not sound"),
    `${folder}/missing.wav`,
    file("empty.wav", wavOf({ rate: 16_000, samples: new Float32Array(0) })),
    file("cut.wav", wavOf(phrase).slice(0, 30)),
    file("quiet.wav", wavOf({ rate: 8_000, samples: new Float32Array(8_000) }, "8")),
  ];
  const { status, err, rows } = await cliProcess(["hear", ...files]);
  expect(status).toBe(1);
  expect(rows).toMatchObject([{ file: files[4], words: "", confidence: 0, rejected: true, items: [] }]);
  const sentences = err.trim().split("\n");
  expect(sentences).toHaveLength(4);
  for (const [index, sentence] of sentences.entries()) {
    expect(sentence).toMatch(
      new RegExp(`^hear: ${files[index]}: expected a (WAV file|file that can be read).*\\.$`),
    );
  }
});

it("without files it says what it expects", async () => {
  const { status, err, out } = await cliProcess(["hear"]);
  expect([status, out]).toEqual([2, ""]);
  expect(err).toContain("expected the names of recordings");
});
