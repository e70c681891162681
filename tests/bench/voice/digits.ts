import { execFileSync } from "node:child_process";
import { existsSync, mkdirSync, readFileSync } from "node:fs";
import { tmpdir } from "node:os";
import { fileURLToPath } from "node:url";
import { readWav } from "../../../src/cli/wav.ts";
import type { Recording } from "../../../src/device/ears/offline/recording.ts";
import type { KeyWord } from "../../../src/device/spotter/words.ts";

/** Real recordings, beside the project and no part of it: the Free Spoken Digit Dataset, 8 kHz, 50 takes of each digit and speaker. */
const DIGITS = fileURLToPath(new URL("../../../../shared/speech/digits", import.meta.url));
const CACHE = `${tmpdir()}/burnerside-digits`;

export const SPEAKERS = ["george", "jackson", "nicolas", "yweweler"] as const;
export type Speaker = (typeof SPEAKERS)[number];
export const FIGURES = [
  "zero",
  "one",
  "two",
  "three",
  "four",
  "five",
  "six",
  "seven",
  "eight",
  "nine",
] as const satisfies readonly KeyWord[];

/** Whether the recordings and opusdec are there. */
export function hasDigits(): boolean {
  return existsSync(DIGITS) && existsSync("/usr/bin/opusdec");
}

/** One take of 50, at 16 kHz, its quiet ends cut. */
export function digit(speaker: Speaker, figure: number, take: number): Recording {
  const name = `${figure}_${speaker}_${take}`;
  mkdirSync(CACHE, { recursive: true });
  const wav = `${CACHE}/${name}.wav`;
  if (!existsSync(wav))
    execFileSync("opusdec", ["--quiet", "--rate", "16000", `${DIGITS}/${name}.opus`, wav]);
  const read = readWav(readFileSync(wav));
  if (!read.ok) throw new Error(`${wav}: ${read.found}`);
  return trimmed(read.recording);
}

/** Without what is next to silent before and after, but 30 ms. */
export function trimmed({ samples, rate }: Recording): Recording {
  const peak = samples.reduce((most, sample) => Math.max(most, Math.abs(sample)), 0);
  const loud = (sample: number): boolean => Math.abs(sample) > 0.02 * peak;
  const margin = Math.round(0.03 * rate);
  const [first, last] = [samples.findIndex(loud), samples.findLastIndex(loud)];
  return { rate, samples: samples.slice(Math.max(0, first - margin), last + margin) };
}
