import { readFileSync } from "node:fs";
import Ajv from "ajv/dist/2020.js";
import { describe, expect, test } from "vitest";
import { exportVoice, importVoice } from "../../../src/app/own-voice/voice-file.ts";
import { readImport } from "../../../src/app/start/import-file.ts";
import { CHANNELS, SYMBOLS } from "../../../src/device/ears/offline/own-head.ts";
import { CLASSES } from "../../../src/device/spotter/words.ts";
import { fileProblems } from "../../../src/record/any-file.ts";
import { VOICE_LAYERS, VOICE_PHONES } from "../../../src/record/voice-file.ts";
import { brief, voiceOf, voiceWithPhones } from "./voices.ts";

const bytes = (text: string) => new TextEncoder().encode(text);
const text = exportVoice(voiceOf());
const { id: _id, on: _on, ...same } = voiceOf();

/** The file with one field changed. */
function with_(path: string, value: unknown): string {
  const file = JSON.parse(text);
  const steps = path.split(".");
  const last = steps.pop() ?? "";
  const place = steps.reduce((inside, step) => inside[step], file);
  if (value === undefined) delete place[last];
  else place[last] = value;
  return JSON.stringify(file);
}

/** Weights of a layer, the first of which is another, in base64. */
function weights(count: number, first: number): string {
  const view = new DataView(new ArrayBuffer(4 * count));
  view.setFloat32(0, first, true);
  return Buffer.from(view.buffer).toString("base64");
}

describe("a voice as a file", () => {
  test("comes back as it was", () =>
    expect(brief(importVoice(bytes(text)))).toEqual(brief({ ok: true, voice: same })));

  test("with what was learned of phrases, too, but for whether it was in use", () => {
    const { id: _id2, on: _on2, ...whole } = voiceWithPhones();
    expect(brief(importVoice(bytes(exportVoice(voiceWithPhones()))))).toEqual(
      brief({ ok: true, voice: whole }),
    );
  });

  test("its weights are 32-bit floats, little-endian, as Node reads them", () => {
    const { kernel } = JSON.parse(text).spotter.head;
    const read = Buffer.from(kernel, "base64");
    const floats = Array.from({ length: 5 }, (_, at) => read.readFloatLE(4 * at));
    expect(floats).toEqual([...voiceOf().spotter.head.kernel.slice(0, 5)]);
    expect(read.length).toBe(4 * 128 * 22);
  });

  test("a head has a place for each class, and one of phones is that of the phone model", () => {
    expect(VOICE_LAYERS.head.outputs).toBe(CLASSES.length);
    expect(VOICE_PHONES).toEqual({ inputs: CHANNELS, outputs: SYMBOLS });
  });

  test("it fits its published schema, by another program's reading of it", () => {
    const schema = JSON.parse(readFileSync("src/record/schema/voice-1.schema.json", "utf8"));
    const fits = new Ajv({ strict: false, formats: { "date-time": true } }).compile(schema);
    expect(fits(JSON.parse(text)), JSON.stringify(fits.errors)).toBe(true);
    expect(fits(JSON.parse(with_("spotter.base", "x")))).toBe(false);
  });

  test("nothing of a recording is in it", () =>
    expect(Object.keys(JSON.parse(text)).sort()).toEqual(["format", "gain", "name", "spotter", "taughtAt"]));
});

describe("where other files are brought in", () => {
  test("a voice is sound to `check`, and one that is not is told with its place", () => {
    expect(fileProblems(text)).toEqual([]);
    expect(fileProblems(with_("gain.heldBack", 0))).toEqual([
      { path: "gain.heldBack", message: "Expected a number at least 1, found 0." },
      { path: "gain", message: expect.stringMatching(/^Expected no more right/) },
    ]);
  });

  test("the start says where a voice is to be brought in", () =>
    expect(readImport("v.json", bytes(text))).toEqual({
      kind: "bad",
      sentences: [
        "v.json, format: Expected a limits sheet or a visit, found a voice file: bring it in under Settings, Own voice.",
      ],
    }));
});

describe("what is no voice is refused, with the place and what was expected", () => {
  const nan = `Expected ${128 * 22} finite numbers from -1000 to 1000, found others.`;
  test.each<[string, string, string, string | RegExp]>([
    ["no JSON", "{", "", /^Line 1, column 2: expected/],
    [
      "a sheet",
      '{"format":"burnerside-sheet/1"}',
      "format",
      'Expected a voice file ("burnerside-voice/1"), found a limits sheet.',
    ],
    [
      "a later version",
      with_("format", "burnerside-voice/2"),
      "format",
      /^Expected version "burnerside-voice\/1"/,
    ],
    ["no name", with_("name", "  "), "name", /^Expected text of at least 1 character/],
    ["an endless name", with_("name", "x".repeat(61)), "name", /^Expected text of at most 60 characters/],
    ["no day", with_("taughtAt", "yesterday"), "taughtAt", /^Expected an ISO 8601 time/],
    [
      "more right than there were",
      with_("gain.rightAfter", 21),
      "gain",
      /^Expected no more right than were held back/,
    ],
    ["a field too many", with_("recording", "UklGRg=="), "recording", /^Expected only fields/],
    [
      "a layer cut short",
      with_("spotter.head.bias", weights(21, 0)),
      "spotter.head.bias",
      /^Expected text of at least 120 characters/,
    ],
    [
      "a layer of the right length that is no base64",
      with_("spotter.head.bias", "!".repeat(120)),
      "spotter.head.bias",
      /base64/,
    ],
    [
      "weights that are no numbers",
      with_("spotter.head.kernel", weights(128 * 22, Number.NaN)),
      "spotter.head.kernel",
      nan,
    ],
    [
      "endless weights",
      with_("spotter.head.kernel", weights(128 * 22, Number.POSITIVE_INFINITY)),
      "spotter.head.kernel",
      nan,
    ],
    [
      "weights beyond all reason",
      with_("spotter.head.kernel", weights(128 * 22, 1001)),
      "spotter.head.kernel",
      nan,
    ],
    [
      "half a float at the end",
      with_("spotter.head.bias", `${weights(22, 0).slice(0, -4)}AAA=`),
      "spotter.head.bias",
      /^Expected 22 finite numbers/,
    ],
    [
      "too much of all",
      " ".repeat(2 * 1024 * 1024 + 1),
      "",
      "Expected a voice file of at most 2 MiB, found 2.1 MiB.",
    ],
    ["a name given twice", text.replace('"name"', '"name": "A", "name"'), "name", /each field once/],
  ])("%s", (_, file, path, message) => {
    const read = importVoice(bytes(file));
    if (read.ok) throw new Error("Expected a refusal.");
    const [problem] = read.problems;
    expect(problem?.path).toBe(path);
    expect(problem?.message).toMatch(message);
  });
});
