import { storedVoice } from "../../../../src/app/own-voice/stored.ts";
import { exportVoice, importVoice } from "../../../../src/app/own-voice/voice-file.ts";
import { VOICE_LAYERS } from "../../../../src/record/voice-file.ts";
import { voiceWithPhones } from "../../../app/own-voice/voices.ts";
import type { Chance } from "../../../support/valve/chance.ts";
import { clearProblems, same } from "../expect.ts";
import { anyJson, brokenJson } from "../json.ts";
import { broken, brokenBytes, noise, pick } from "../mutate.ts";
import { Fault, type Target, target } from "../target.ts";

const VOICE = exportVoice(voiceWithPhones());
const { spotter, phones } = JSON.parse(VOICE);
/** The same with the large layers out of the way, so that the small things of it are hit more often. */
const SMALL = JSON.stringify({
  ...JSON.parse(VOICE),
  spotter: { head: spotter.head },
  phones: { ...phones, head: {} },
});
const utf8 = new TextEncoder();

/** Weights as they may not be. */
const ODD = [Number.NaN, Number.POSITIVE_INFINITY, -1e38, 1001, 1e-40, 0, 1000];

/** A voice of which one weight is another. */
function withOdd(chance: Chance): string {
  const file = JSON.parse(VOICE);
  const { outputs } = VOICE_LAYERS.head;
  const view = new DataView(new ArrayBuffer(4 * outputs));
  view.setFloat32(4 * Math.floor(chance.from(0, outputs)), pick(chance, ODD), true);
  file.spotter.head.bias = Buffer.from(view.buffer).toString("base64");
  if (chance.is(0.2)) delete file.phones;
  return JSON.stringify(file);
}

function drawVoice(chance: Chance): string {
  if (chance.is(0.03)) return noise(chance, 60);
  if (chance.is(0.03)) return JSON.stringify(anyJson(chance));
  if (chance.is(0.2)) return withOdd(chance);
  const text = chance.is(0.3) ? VOICE : SMALL;
  if (chance.is(0.03)) return text;
  return chance.is(0.6) ? brokenJson(chance, JSON.parse(text)) : broken(chance, text, [SMALL]);
}

export const VOICES: readonly Target[] = [
  target<Uint8Array>({
    name: "voice file",
    // Each is half a megabyte, as a rule.
    inputs: 200,
    draw: (chance) => {
      const bytes = utf8.encode(drawVoice(chance));
      return chance.is(0.2) ? brokenBytes(chance, bytes) : bytes;
    },
    read: (bytes) => {
      const read = importVoice(bytes);
      if (!read.ok) {
        clearProblems(read.problems);
        return "refused";
      }
      const voice = { ...read.voice, id: "x", on: true };
      if (!storedVoice(voice)) throw new Fault("what was taken could not be read from the notebook");
      same(importVoice(utf8.encode(exportVoice(voice))), read, "exported and read again");
      return "accepted";
    },
  }),
];
