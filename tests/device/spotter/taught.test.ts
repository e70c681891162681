import { beforeAll, describe, expect, test } from "vitest";
import type { BaseModel, SpotterModel } from "../../../src/device/spotter/base.ts";
import { scoresOf } from "../../../src/device/spotter/gain.ts";
import { loadRecognizer } from "../../../src/device/spotter/library.ts";
import type { TaughtSpotter } from "../../../src/device/spotter/profile.ts";
import { readBase, type SpotterFiles } from "../../../src/device/spotter/read-base.ts";
import { denseOf } from "../../../src/device/spotter/tail.ts";
import { applyTaught } from "../../../src/device/spotter/taught.ts";
import { untrainedFiles } from "../../support/spotter-base.ts";
import { madeTakes } from "../../support/spotter-takes.ts";

let files: SpotterFiles;
let base: BaseModel;
/** The base's own last layers, as if they had been taught. */
let own: TaughtSpotter;
beforeAll(async () => {
  files = await untrainedFiles();
  base = await readBase(files);
  const { model } = await loadRecognizer(base);
  own = { base: base.hash, hidden: denseOf(model.getLayer("hidden")), head: denseOf(model.getLayer("head")) };
  model.dispose();
});

describe("the model's files", () => {
  const broken: [string, Partial<SpotterFiles>, RegExp][] = [
    ["no JSON", { model: "{" }, /model\.json is no JSON/],
    ["another format", { model: '{"format":"graph-model"}' }, /model\.json: format/],
    [
      "other words",
      { metadata: '{"tfjsSpeechCommandsVersion":"0.5.4","wordLabels":["up"]}' },
      /expected the words/,
    ],
    ["no words", { metadata: "{}" }, /metadata\.json: tfjsSpeechCommandsVersion/],
    ["half a download", { weights: new Uint8Array(1000) }, /weights\.bin: expected \d+ bytes, found 1000/],
  ];
  test.each(broken)("%s is refused", (_, wrong, message) =>
    expect(readBase({ ...files, ...wrong })).rejects.toThrow(message),
  );
  // The digest is computed by Node's own cryptography.
  test("their hash is the SHA-256 of the weights", async () => {
    const { createHash } = await import("node:crypto");
    expect(base.hash).toBe(createHash("sha256").update(files.weights).digest("base64url"));
  });
});

describe("what was taught is laid onto the base", () => {
  const applied = (taught: TaughtSpotter): SpotterModel => {
    const result = applyTaught(base, taught);
    if (!result.ok) throw new Error(result.refusal.kind);
    return result.model;
  };
  const sounds = madeTakes(1, 3).map(({ spectrogram }) => spectrogram);

  test("the base's own layers change nothing", async () =>
    expect(await scoresOf(applied(own), sounds)).toEqual(await scoresOf(base, sounds)));

  test("a bias that is far above the rest is what is heard", async () => {
    const bias = own.head.bias.map((value, at) => (at === 5 ? value + 50 : value));
    for (const scores of await scoresOf(applied({ ...own, head: { ...own.head, bias } }), sounds))
      expect(scores[5]).toBeCloseTo(1, 4);
  });

  const short = new Float32Array(3);
  const broken: [string, (from: TaughtSpotter) => TaughtSpotter, object][] = [
    ["another base", (from) => ({ ...from, base: "x" }), { kind: "another-base" }],
    [
      "a layer too small",
      (from) => ({ ...from, hidden: { ...from.hidden, kernel: short } }),
      { kind: "damaged", layer: "hidden" },
    ],
    [
      "a bias too small",
      (from) => ({ ...from, head: { ...from.head, bias: short } }),
      { kind: "damaged", layer: "head" },
    ],
    [
      "a hole",
      (from) => ({
        ...from,
        head: { ...from.head, bias: from.head.bias.map((value, at) => (at === 2 ? Number.NaN : value)) },
      }),
      { kind: "damaged", layer: "head" },
    ],
  ];
  test.each(broken)("%s is refused", (_, change, refusal) =>
    expect(applyTaught(base, change(own))).toEqual({ ok: false, refusal }),
  );
});
