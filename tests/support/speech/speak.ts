import wavefile from "wavefile";
import type { Recording } from "../../../src/device/ears/offline/recording.ts";
import { runWasi } from "../../../src/device/voice/wasi.ts";
import { loadVoice } from "./voice-program.ts";

/** Flite's voices, made from recordings of people: two US men, a Scottish man, a US woman, and an older US man. */
export const VOICES = ["kal16", "rms", "awb", "slt"] as const;
export type Voice = (typeof VOICES)[number];

let program: Promise<WebAssembly.Module> | null = null;

/** A synthetic voice says a phrase; 16 kHz. CO2, O2, CO and ppm are spelled out as people say them. */
export async function speak(text: string, voice: Voice = "kal16"): Promise<Recording> {
  program ??= loadVoice();
  const said = text
    .replace(/\bco2\b/gi, "C O two")
    .replace(/\bo2\b/gi, "O two")
    .replace(/\bco\b/gi, "C O")
    .replace(/\bppm\b/gi, "P P M");
  const file = await runWasi(await program, ["flite", "-voice", voice, "-t", said, "-o", "/out.wav"]);
  const wav = new wavefile.WaveFile(file);
  return {
    rate: 16_000,
    samples: Float32Array.from(wav.getSamples(true), (sample) => sample / 2 ** 15),
  };
}

/** Several phrases with a pause after each, one recording. Seconds of quiet before and after. */
export async function dictate(
  phrases: readonly string[],
  { voice = "kal16", before = 1, pause = 1.5 }: { voice?: Voice; before?: number; pause?: number } = {},
): Promise<Recording> {
  const rate = 16_000;
  const parts: Float32Array[] = [new Float32Array(before * rate)];
  for (const phrase of phrases) {
    parts.push((await speak(phrase, voice)).samples, new Float32Array(pause * rate));
  }
  const samples = new Float32Array(parts.reduce((sum, part) => sum + part.length, 0));
  let at = 0;
  for (const part of parts) {
    samples.set(part, at);
    at += part.length;
  }
  return { rate, samples };
}

/** The bytes of a WAV file, mono. */
export function wavOf(
  { samples, rate }: Recording,
  depth: "8" | "16" | "24" | "32" | "32f" = "16",
): Uint8Array {
  const wav = new wavefile.WaveFile();
  wav.fromScratch(1, rate, "32f", samples);
  if (depth !== "32f") wav.toBitDepth(depth);
  return wav.toBuffer();
}
