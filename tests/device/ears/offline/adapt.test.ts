import { beforeAll, describe, expect, it } from "vitest";
import { createAcoustic } from "../../../../src/device/ears/offline/acoustic.ts";
import { adaptPhones, between, elseLess, harmOf, headOf } from "../../../../src/device/ears/offline/adapt.ts";
import { LearnedPhones } from "../../../../src/device/ears/offline/adaptation.ts";
import { loadEarAssets } from "../../../../src/device/ears/offline/assets-node.ts";
import { chainOf } from "../../../../src/device/ears/offline/ctc.ts";
import { addSlope, chancesOf, type Example, flat } from "../../../../src/device/ears/offline/head.ts";
import { withLearned } from "../../../../src/device/ears/offline/learned.ts";
import { createMel, EAR_RATE, phoneFeatures } from "../../../../src/device/ears/offline/mel.ts";
import { noisy } from "../../../../src/device/ears/offline/noisy.ts";
import { CHANNELS, type PhoneHead, SYMBOLS } from "../../../../src/device/ears/offline/own-head.ts";
import type { EarAssets } from "../../../../src/device/ears/offline/recogniser.ts";
import { HEAD_TRAINING, trainHead } from "../../../../src/device/ears/offline/train-head.ts";
import { Weights } from "../../../../src/device/ears/offline/weights.ts";
import { sha256OfBytes } from "../../../../src/device/signing/sha256.ts";
import { seeded } from "../../../../src/device/spotter/augment.ts";
import { numbersLanguage } from "../../../support/speech/numbers-language.ts";
import { speak } from "../../../support/speech/speak.ts";

let assets: EarAssets;
let weights: Weights;
let shipped: PhoneHead;
/** "nine two", by a synthetic voice. */
let nineTwo: Float32Array;
let hidden: Float32Array;
beforeAll(async () => {
  assets = await loadEarAssets();
  weights = new Weights(assets.manifest, assets.weights);
  shipped = headOf(weights);
  nineTwo = (await speak("nine two", "rms")).samples;
  hidden = createAcoustic(weights).hidden(phoneFeatures(createMel().frames(nineTwo)));
});

const numbers = (text: string) =>
  chainOf(
    text
      .split(" ")
      .map((word) =>
        (numbersLanguage().lexicon[word] ?? []).map((way) =>
          way.split(" ").map((phone) => weights.phones.indexOf(phone)),
        ),
      ),
    SYMBOLS - 1,
  );

const moved = ({ kernel, bias }: PhoneHead): PhoneHead => ({
  kernel: kernel.map((weight, at) => weight + 0.01 * Math.sin(at)),
  bias,
});

describe("a head of one's own", () => {
  const logs = (own?: PhoneHead) =>
    createAcoustic(weights, own).chances(phoneFeatures(createMel().frames(nineTwo))).logs;

  it("without one, and with the shipped one, the chances are the same to the last bit", () =>
    expect(logs(shipped)).toEqual(logs()));

  it("with another they are others", () => expect(logs(moved(shipped))).not.toEqual(logs()));

  it("plain script and TensorFlow.js agree", () => {
    const theirs = logs(moved(shipped));
    const ours = chancesOf(moved(shipped), hidden).logs;
    expect(ours).toHaveLength(theirs.length);
    expect(Math.max(...ours.map((log, at) => Math.abs(log - (theirs[at] ?? 0))))).toBeLessThan(1e-3);
  });

  it.each<[string, (learned: LearnedPhones) => LearnedPhones, boolean]>([
    ["learned on this model", (learned) => learned, true],
    ["switched off", (learned) => ({ ...learned, on: false }), false],
    ["learned on another model", (learned) => ({ ...learned, base: "k".repeat(43) }), false],
  ])("%s: laid on, or not", async (_, change, laidOn) => {
    const learned = change(await learnedPhones());
    expect((await withLearned(assets, learned)).head).toBe(laidOn ? learned.head : undefined);
  });
  it("nobody's", async () => expect(await withLearned(assets, null)).toBe(assets));
});

async function learnedPhones(): Promise<LearnedPhones> {
  const base = await sha256OfBytes(assets.weights);
  const gain = { heldBack: 24, rightBefore: 19, rightAfter: 22 };
  return { base, head: shipped, gain, phrases: 40, learnedAt: "2026-11-26T10:00:00.000Z", on: true };
}

describe("what is stored of it", () => {
  const changed = (head: Readonly<Record<string, unknown>>) => async () => {
    const learned = await learnedPhones();
    return { ...learned, head: { ...learned.head, ...head } };
  };
  it.each<[string, () => Promise<unknown>, boolean]>([
    ["whole", learnedPhones, true],
    ["a bias short", changed({ bias: new Float32Array(39) }), false],
    ["weights too many", changed({ kernel: new Float32Array(CHANNELS * SYMBOLS + 1) }), false],
    ["no number", changed({ bias: new Float32Array(40).fill(Number.NaN) }), false],
    ["endless", changed({ bias: new Float32Array(40).fill(Number.POSITIVE_INFINITY) }), false],
    ["beyond reason", changed({ bias: new Float32Array(40).fill(1001) }), false],
    ["not even weights", changed({ bias: undefined }), false],
    ["a field too many", async () => ({ ...(await learnedPhones()), sound: 1 }), false],
  ])("%s", async (_, stored, ok) => expect(LearnedPhones.safeParse(await stored()).success).toBe(ok));
});

describe("the training of a head", () => {
  const examples = (): Example[] => [{ hidden, wanted: numbers("nine four") }];
  const lossOf = (head: PhoneHead): number => {
    const slope = flat();
    for (const example of examples()) addSlope(slope, head, example);
    return slope.loss;
  };

  it("its gradient is what small changes of the weights do", () => {
    const slope = flat();
    for (const example of examples()) addSlope(slope, shipped, example);
    const by = 1e-3;
    const largest = [...slope.kernel.keys()]
      .sort((a, b) => Math.abs(slope.kernel[b] ?? 0) - Math.abs(slope.kernel[a] ?? 0))
      .slice(0, 4);
    for (const at of largest) {
      const [more, less] = [by, -by].map((change) => {
        const kernel = shipped.kernel.map((weight, place) => (place === at ? weight + change : weight));
        return lossOf({ ...shipped, kernel });
      });
      const numeric = ((more ?? 0) - (less ?? 0)) / (2 * by);
      expect(numeric / (slope.kernel[at] ?? 0)).toBeCloseTo(1, 1);
    }
    expect(largest.some((at) => Math.abs(slope.kernel[at] ?? 0) > 1)).toBe(true);
  });

  it("explains what was said better, the same each time, and leaves the shipped head as it is", () => {
    const before = Float32Array.from(shipped.kernel);
    const train = () => trainHead(shipped, examples(), { ...HEAD_TRAINING, epochs: 16 }, () => undefined);
    const learned = train();
    expect(lossOf(learned)).toBeLessThan(0.5 * lossOf(shipped));
    expect(train()).toEqual(learned);
    expect(shipped.kernel).toEqual(before);
  });

  it("a strong pull keeps it where it was", () => {
    const learned = trainHead(
      shipped,
      examples(),
      { ...HEAD_TRAINING, pull: 100, epochs: 4 },
      () => undefined,
    );
    const far = Math.max(...learned.kernel.map((weight, at) => Math.abs(weight - (shipped.kernel[at] ?? 0))));
    expect(far).toBeLessThan(0.01);
  });

  it("what is to stay as it is keeps the head where it is, and draws another back", () => {
    const wanted = chancesOf(shipped, hidden).logs.map(Math.exp);
    const stays: Example[] = [{ hidden, wanted }];
    const slope = flat();
    for (const example of stays) addSlope(slope, shipped, example);
    expect(Math.max(...slope.kernel.map(Math.abs))).toBeLessThan(1e-3);
    const offOf = (head: PhoneHead) =>
      Math.max(...chancesOf(head, hidden).logs.map((log, at) => Math.abs(Math.exp(log) - (wanted[at] ?? 0))));
    const other = trainHead(shipped, examples(), HEAD_TRAINING, () => undefined);
    const back = trainHead(other, stays, { ...HEAD_TRAINING, pull: 0 }, () => undefined);
    expect(offOf(back)).toBeLessThan(0.5 * offOf(other));
  });

  it("tells how far it is, to the end", () => {
    const told: number[] = [];
    trainHead(shipped, examples(), { ...HEAD_TRAINING, epochs: 3 }, (fraction) => told.push(fraction));
    expect(told).toEqual([...told].sort((a, b) => a - b));
    expect(told.at(-1)).toBe(1);
  });
});

describe("the guard", () => {
  const before = { right: 19, plainRight: 8, wrong: 2, phantoms: 1 };
  it.each([
    ["more right", { right: 20 }, null],
    ["fewer phantoms beside", { right: 20, phantoms: 0 }, null],
    ["fewer wrong beside", { right: 20, wrong: 1 }, null],
    ["as many right", {}, "no-more-right"],
    ["as many right, fewer phantoms", { phantoms: 0 }, "no-more-right"],
    ["fewer", { right: 18 }, "no-more-right"],
    ["better in noise, worse without", { right: 22, plainRight: 7 }, "fewer-without-noise"],
    ["more of them logged wrong", { right: 22, wrong: 3 }, "more-wrong"],
    ["takes more talk for words", { right: 22, phantoms: 2 }, "talk-taken-for-words"],
  ])("%s", (_, change, harm) => expect(harmOf(before, { ...before, ...change })).toBe(harm));

  const whole = (change: object) => ({ name: "whole", after: { ...before, ...change } });
  const less = (change: object) => ({ name: "less", after: { ...before, ...change } });
  it.each([
    ["the whole, where it does no harm", { right: 20 }, { right: 30 }, "whole"],
    ["less, where the whole does harm and less does none", { right: 22, wrong: 3 }, { right: 20 }, "less"],
    ["not less where that does harm, too", { right: 22, wrong: 3 }, { right: 20, phantoms: 2 }, "whole"],
    ["nor where it brings nothing", { right: 22, wrong: 3 }, {}, "whole"],
  ])("takes %s", (_, all, some, taken) =>
    expect(elseLess(before, whole(all), () => less(some)).name).toBe(taken),
  );

  it("part of the way lies between, weight by weight", () => {
    const far = moved(shipped);
    const some = between(shipped, far, 0.6);
    const at = [0, 1, 777, CHANNELS * SYMBOLS - 1];
    for (const place of at)
      expect(some.kernel[place]).toBeCloseTo(
        0.4 * (shipped.kernel[place] ?? 0) + 0.6 * (far.kernel[place] ?? 0),
        5,
      );
    expect(between(shipped, far, 1)).toEqual(far);
    expect(between(shipped, far, 0)).toEqual(shipped);
  });

  const clips = (count: number, text: string) =>
    Array.from({ length: count }, () => ({ sound: nineTwo.subarray(0, 0.3 * EAR_RATE), text }));
  const adapted = (list: ReturnType<typeof clips>) =>
    adaptPhones(assets, numbersLanguage(), list, () => undefined, { ...HEAD_TRAINING, epochs: 1 });

  it("too few", () => expect(adapted(clips(29, "nine two"))).toEqual({ kind: "too-few", found: 29 }));
  it("words that the ear does not know do not count", () =>
    expect(adapted([...clips(29, "nine two"), ...clips(20, "nine tuba"), ...clips(1, "toString")])).toEqual({
      kind: "too-few",
      found: 29,
    }));
  it("three tries of every fifth phrase are held back, and kept is only what hears more of them right", () => {
    const outcome = adapted(clips(30, "nine"));
    if (outcome.kind === "too-few") throw new Error("Expected enough.");
    const { heldBack, rightBefore, rightAfter } = outcome.gain;
    expect(heldBack).toBe(18);
    expect(outcome.kind).toBe(rightAfter > rightBefore ? "better" : "no-better");
  });
});

describe("noise that is mixed in", () => {
  const tone = Float32Array.from({ length: EAR_RATE }, (_, at) => 0.1 * Math.sin(0.5 * at));
  const level = (sound: Float32Array) => 10 * Math.log10(sound.reduce((sum, one) => sum + one * one, 0));

  it.each([0, 10, 20])("at %i dB, above 300 Hz as good as that over all of a bright tone", (decibels) => {
    const mixed = noisy(tone, decibels, seeded(3));
    const added = mixed.map((one, at) => one - (tone[at] ?? 0));
    // What is below 300 Hz comes on top, and does not count.
    expect(level(tone) - level(added)).toBeLessThan(decibels + 1);
    expect(level(tone) - level(added)).toBeGreaterThan(decibels - 25);
  });
  it("10 dB less is 10 dB less", () => {
    const [a, b] = [0, 10].map((decibels) =>
      noisy(tone, decibels, seeded(3)).map((one, at) => one - (tone[at] ?? 0)),
    );
    expect(level(a ?? tone) - level(b ?? tone)).toBeCloseTo(10, 2);
  });
  it("silence stays silent", () =>
    expect(noisy(new Float32Array(100), 10, seeded(1)).every((one) => one === 0)).toBe(true));
});
