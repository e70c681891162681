import * as tf from "@tensorflow/tfjs-core";
import { beforeAll, describe, expect, test } from "vitest";
import type { BaseModel } from "../../../src/device/spotter/base.ts";
import { gainOf, rightOf, scoresOf } from "../../../src/device/spotter/gain.ts";
import { createTransfer, loadRecognizer } from "../../../src/device/spotter/library.ts";
import { ballasted, denseOf, featuresOf, loadTail } from "../../../src/device/spotter/tail.ts";
import { normalised, type Take } from "../../../src/device/spotter/take.ts";
import { applyTaught } from "../../../src/device/spotter/taught.ts";
import { teachSpotter } from "../../../src/device/spotter/teach.ts";
import { CLASSES } from "../../../src/device/spotter/words.ts";
import { untrainedBase } from "../../support/spotter-base.ts";
import { madeTakes } from "../../support/spotter-takes.ts";

let base: BaseModel;
beforeAll(async () => {
  base = await untrainedBase();
});
const SHORT = { shifted: 1, noisy: 1, headEpochs: 1, epochs: 12, rate: 3e-3 };
const spectrogramsOf = (takes: readonly Take[]) => takes.map(({ spectrogram }) => spectrogram);

test("the tail hears what the whole model hears, through the library's normalising", async () => {
  const recognizer = await loadRecognizer(base);
  const sounds = spectrogramsOf(madeTakes(1));
  const { columns, scale } = ballasted(await featuresOf(recognizer, sounds, async () => undefined));
  const tail = await loadTail(recognizer, scale);
  const whole = await scoresOf(base, sounds);
  for (const [at, column] of columns.entries()) {
    const { scores } = await tail.recognize(normalised(column));
    const off = Float32Array.from(whole[at] ?? [], (score, place) => score - Number(scores[place]));
    expect(Math.max(...off.map(Math.abs))).toBeLessThan(1e-4);
  }
  // It does not hear the same in everything.
  expect(whole[3]).not.toEqual(whole[4]);
  for (const { model } of [tail, recognizer]) model.dispose();
});

test("takes that can be told apart are learned, and what was held back shows it; nothing is left in memory", async () => {
  const [takes, heldBack] = [madeTakes(4, 8, 1), madeTakes(3, 8, 2)];
  const tensors = tf.memory().numTensors;
  const fractions: number[] = [];
  const taught = await teachSpotter(base, takes, { ...SHORT, epochs: 25 }, (fraction) =>
    fractions.push(fraction),
  );
  const applied = applyTaught(base, taught);
  if (!applied.ok) throw new Error(applied.refusal.kind);
  const gain = await gainOf(base, applied.model, heldBack);
  expect(gain.heldBack).toBe(24);
  expect(gain.rightBefore).toBeLessThan(12);
  expect(gain.rightAfter).toBeGreaterThan(18);
  expect(await rightOf(applied.model, takes)).toBeGreaterThan(26);
  expect(fractions).toEqual(fractions.toSorted((a, b) => a - b));
  expect(fractions.at(-1)).toBe(1);
  expect(tf.memory().numTensors).toBe(tensors);
});

test("the library takes more examples than its own reader takes at once", async () => {
  const recognizer = await loadRecognizer(base);
  const labels = [CLASSES[5] ?? CLASSES[0], CLASSES[3] ?? CLASSES[0]] as const;
  const examples = Array.from({ length: 2400 }, (_, at) => ({
    label: labels[at % 2 === 0 ? 0 : 1],
    values: Float32Array.of(at, 1),
  }));
  expect(createTransfer(recognizer, examples).classes).toEqual([CLASSES[3], CLASSES[5]]);
  recognizer.model.dispose();
});

test("classes without a take keep what the base has of them", async () => {
  const { model } = await loadRecognizer(base);
  const before = denseOf(model.getLayer("head"));
  model.dispose();
  const taught = await teachSpotter(base, madeTakes(2, 3), SHORT);
  const columnOf = (kernel: Float32Array, place: number) =>
    kernel.filter((_, at) => at % CLASSES.length === place);
  for (const place of CLASSES.keys()) {
    const same = expect(columnOf(taught.head.kernel, place));
    const known = columnOf(before.kernel, place);
    if (place < 3) same.not.toEqual(known);
    else same.toEqual(known);
  }
});

describe("nothing comes out", () => {
  test("where it is ended, early or late", async () => {
    for (const after of [0.1, 0.9]) {
      const ending = new AbortController();
      const end = (fraction: number) => {
        if (fraction > after) ending.abort(new Error("enough"));
      };
      const teaching = teachSpotter(base, madeTakes(4, 4), SHORT, end, ending.signal);
      await expect(teaching).rejects.toThrow("enough");
    }
  });
  test("where it runs away", () =>
    expect(teachSpotter(base, madeTakes(2, 3), { ...SHORT, rate: Number.NaN })).rejects.toThrow("ran away"));

  const [first, ...others] = madeTakes(1, 3);
  if (!first) throw new Error("Expected a take.");
  const { spectrogram } = first;
  const broken: [string, readonly Take[], RegExp][] = [
    ["of none", [], /two classes/],
    ["of one class", [first, first], /two classes/],
    ["too short", [{ ...first, spectrogram: spectrogram.subarray(1) }, ...others], /9976 levels in take 1/],
    [
      "of digital silence",
      [...others, { ...first, spectrogram: spectrogram.map(() => Number.NEGATIVE_INFINITY) }],
      /take 3/,
    ],
    [
      "of one level",
      [...others, { ...first, spectrogram: spectrogram.map(() => -60) }],
      /one level throughout/,
    ],
  ];
  test.each(broken)("of takes %s", (_, takes, message) =>
    expect(teachSpotter(base, takes, SHORT)).rejects.toThrow(message),
  );
  test("of a gain where nothing was held back", () =>
    expect(gainOf(base, base, [])).rejects.toThrow("held back"));
});
