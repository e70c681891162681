import { describe, expect, test } from "vitest";
import { modelFor } from "../../../src/app/own-voice/active-voice.ts";
import type { Notebook } from "../../../src/device/notebook/notebook.ts";
import type { BaseModel } from "../../../src/device/spotter/base.ts";
import { VOICE_LAYERS, type VoiceLayer } from "../../../src/record/voice-file.ts";
import { BASE, voiceOf } from "./voices.ts";

const layer = (name: VoiceLayer) => {
  const { inputs, outputs } = VOICE_LAYERS[name];
  return [
    { name: `${name}/kernel`, shape: [inputs, outputs], dtype: "float32" as const },
    { name: `${name}/bias`, shape: [outputs], dtype: "float32" as const },
  ];
};
const specs = [...layer("hidden"), ...layer("head")];
const SHIPPED: BaseModel = {
  hash: BASE,
  topology: {},
  specs,
  weights: new Uint8Array(specs.reduce((sum, { shape }) => sum + 4 * shape.reduce((a, b) => a * b, 1), 0)),
};
const ADA = voiceOf();
const older = voiceOf({ spotter: { ...ADA.spotter, base: "o".repeat(43) } });
const notebookOf = (row: unknown): Pick<Notebook, "voices"> => ({
  voices: {
    all: async () => [row],
    get: async () => row,
    keep: async () => {},
    drop: async () => {},
  },
});

describe("what is listened with", () => {
  test("whoever speaks: what was learned of them, over the shipped model", async () => {
    const { weights } = await modelFor(notebookOf(ADA), "p1", async () => SHIPPED);
    const floats = new Float32Array(weights.buffer);
    const { hidden, head } = ADA.spotter;
    expect([...floats.slice(0, 3)]).toEqual([...hidden.kernel.slice(0, 3)]);
    expect([...floats.slice(-head.bias.length)]).toEqual([...head.bias]);
  });

  test.each<[string, unknown, string | null]>([
    ["nobody was chosen", ADA, null],
    ["switched off", { ...ADA, on: false }, "p1"],
    ["deleted", undefined, "p1"],
    ["taught to an older ear", older, "p1"],
    ["damaged", { ...ADA, gain: "none" }, "p1"],
  ])("%s: the shipped model", async (_, row, speaker) =>
    expect(await modelFor(notebookOf(row), speaker, async () => SHIPPED)).toBe(SHIPPED),
  );

  test("a notebook that cannot be read: the shipped model", async () => {
    const { voices } = notebookOf(ADA);
    const broken = { voices: { ...voices, get: () => Promise.reject(new Error("no disk")) } };
    expect(await modelFor(broken, "p1", async () => SHIPPED)).toBe(SHIPPED);
  });
});
