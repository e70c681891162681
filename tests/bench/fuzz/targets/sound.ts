import { readWav, WAV_EXPECTED } from "../../../../src/cli/wav.ts";
import { wavOf } from "../../../support/speech/speak.ts";
import { clearSentence } from "../expect.ts";
import { brokenBytes, noise, pick } from "../mutate.ts";
import { Fault, type Target, target } from "../target.ts";

const samples = Float32Array.from({ length: 200 }, (_, at) => Math.sin(at / 3) / 2);
const WAVS = (["8", "16", "24", "32", "32f"] as const).map((depth) =>
  wavOf({ samples, rate: 16_000 }, depth),
);

export const SOUND: readonly Target[] = [
  target<Uint8Array>({
    name: "WAV",
    inputs: 8_000,
    draw: (chance) =>
      chance.is(0.05)
        ? new TextEncoder().encode(noise(chance, 200))
        : brokenBytes(chance, pick(chance, WAVS)),
    read: (bytes) => {
      const read = readWav(bytes);
      if (!read.ok) {
        // As the verb says it.
        clearSentence(`Expected ${WAV_EXPECTED}; found: ${read.found}.`);
        return "refused";
      }
      const { samples: heard, rate } = read.recording;
      if (!(Number.isInteger(rate) && heard.length > 0))
        throw new Fault(`${heard.length} samples at ${rate}`);
      if (heard.some((sample) => !(Math.abs(sample) <= 1))) throw new Fault("a sample beyond full scale");
      return "accepted";
    },
  }),
];
