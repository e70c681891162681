import { readFileSync } from "node:fs";
import { beforeAll, describe, expect, it } from "vitest";
import { createAcoustic } from "../../../../src/device/ears/offline/acoustic.ts";
import { loadEarAssets } from "../../../../src/device/ears/offline/assets-node.ts";
import { BANDS, createMel, EAR_RATE, phoneFeatures } from "../../../../src/device/ears/offline/mel.ts";
import { createVoiceDetector } from "../../../../src/device/ears/offline/voice.ts";
import { readManifest, Weights } from "../../../../src/device/ears/offline/weights.ts";

/** What PyTorch makes of the same sound with the same weights at full precision (grammars/en/acoustic/reference.py). */
const REFERENCE: { features: number[]; chances: number[]; voice: number[] } = JSON.parse(
  readFileSync(new URL("../../../support/speech/acoustic-reference.json", import.meta.url), "utf8"),
);
const SOUND = Float32Array.from(
  { length: (EAR_RATE * 3) / 10 },
  (_, at) => 0.3 * Math.sin(0.05 * at + 1e-5 * at * at) + 0.1 * Math.sin(0.02 * at),
);

const worst = (ours: ArrayLike<number>, theirs: readonly number[]): number =>
  theirs.reduce((most, value, at) => Math.max(most, Math.abs(value - (ours[at] ?? Number.NaN))), 0);

let weights: Weights;
beforeAll(async () => {
  const assets = await loadEarAssets();
  weights = new Weights(assets.manifest, assets.weights);
});

describe("the models are those that were trained", () => {
  const frames = createMel().frames(SOUND);
  it("features", () => {
    const features = phoneFeatures(frames);
    expect(features).toHaveLength(REFERENCE.features.length);
    expect(worst(features, REFERENCE.features)).toBeLessThan(2e-3);
  });
  it("phones: whole-number weights move the logarithms of the chances by little", () => {
    const { steps, symbols, logs } = createAcoustic(weights).chances(phoneFeatures(frames));
    expect([steps, symbols]).toEqual([Math.ceil(frames.length / 2), weights.phones.length + 1]);
    const likely = REFERENCE.chances.map((value, at) => (value > -3 ? [value, logs[at] ?? 0] : [0, 0]));
    expect(Math.max(...likely.map(([a = 0, b = 0]) => Math.abs(a - b)))).toBeLessThan(0.3);
    for (let step = 0; step < steps; step++) {
      const chances = logs.subarray(step * symbols, (step + 1) * symbols).map(Math.exp);
      expect(chances.reduce((sum, chance) => sum + chance, 0)).toBeCloseTo(1, 3);
    }
  });
  it("voice", () => {
    const detector = createVoiceDetector(weights);
    const heard = frames.map((frame) => detector.frame(frame));
    expect(worst(heard, REFERENCE.voice)).toBeLessThan(5e-3);
  });
});

describe("mel energies", () => {
  /** mel = 2595 log10(1 + f/700): O'Shaughnessy, Speech Communication, 1987; from memory. */
  const mel = (hertz: number): number => 2595 * Math.log10(1 + hertz / 700);
  const centre = (band: number): number => mel(60) + ((mel(7800) - mel(60)) * (band + 1)) / (BANDS + 1);

  it.each([300, 1000, 2500, 5000, 7000])("a tone of %i Hz is loudest in the band around it", (hertz) => {
    const tone = Float32Array.from({ length: 4000 }, (_, at) =>
      Math.sin((2 * Math.PI * hertz * at) / EAR_RATE),
    );
    const frame = createMel().frames(tone)[5] ?? new Float32Array(BANDS);
    const nearest = Array.from({ length: BANDS }, (_, band) => Math.abs(centre(band) - mel(hertz)));
    expect(frame.indexOf(Math.max(...frame))).toBe(nearest.indexOf(Math.min(...nearest)));
  });
  it("come out the same however the sound is cut", () => {
    const whole = createMel().frames(SOUND);
    const mel = createMel();
    const parts = [0, 7, 1000, 1001, 3333].flatMap((from, at, all) =>
      mel.frames(SOUND.slice(from, all[at + 1])),
    );
    expect(parts.map((frame) => [...frame])).toEqual(whole.map((frame) => [...frame]));
  });
  it("features do not know how loud it was", () => {
    const loud = phoneFeatures(createMel().frames(SOUND));
    const soft = phoneFeatures(createMel().frames(SOUND.map((sample) => sample / 50)));
    expect(worst(soft, [...loud])).toBeLessThan(1e-2);
  });
});

describe("weights that are not whole", () => {
  const tensor = { name: "a", shape: [2], offset: 0, type: "float16" } as const;
  const manifest = { format: "burnerside-ear/1", phones: ["AA"], tensors: [tensor] } as const;

  it("16-bit floats are read exactly", () => {
    // 1.5 and -2 in IEEE 754 binary16.
    const { values } = new Weights(manifest, new Uint8Array([0x00, 0x3e, 0x00, 0xc0])).get("a");
    expect([...values]).toEqual([1.5, -2]);
  });
  it("8-bit numbers are multiplied by the scale of their channel", () => {
    const two = { name: "a", shape: [2, 2], offset: 0, type: "int8", channels: 2 } as const;
    // Scales 1.5 and -2, then 1, 2, -3, 4.
    const file = new Uint8Array([0x00, 0x3e, 0x00, 0xc0, 1, 2, 253, 4]);
    const { values } = new Weights({ ...manifest, tensors: [two] }, file).get("a");
    expect([...values]).toEqual([1.5, -4, -4.5, -8]);
  });
  it("half a download is named", () =>
    expect(() => new Weights(manifest, new Uint8Array(3))).toThrow("expected a up to 4"));
  it("a missing tensor is named", () =>
    expect(() => new Weights(manifest, new Uint8Array(4)).get("b")).toThrow("lack b"));
  it("another format is named", () =>
    expect(() => readManifest('{"format":"burnerside-ear/2"}')).toThrow("burnerside-ear/2"));
});
