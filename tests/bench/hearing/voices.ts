import { execFileSync } from "node:child_process";
import { existsSync, mkdtempSync, readdirSync, readFileSync, writeFileSync } from "node:fs";
import { tmpdir } from "node:os";
import { fileURLToPath } from "node:url";
import { readWav } from "../../../src/cli/wav.ts";
import type { Recording } from "../../../src/device/ears/offline/recording.ts";
import { createResampler } from "../../../src/device/ears/offline/resample.ts";
import { speak } from "../../support/speech/speak.ts";

/** A voice that the models have never heard. */
export interface Unheard {
  readonly name: string;
  readonly say: (text: string) => Promise<Recording>;
}

const SPEECH = fileURLToPath(new URL("../../../../shared/speech", import.meta.url));

/** Flite's `rms` always; festival's `ked` where Debian's festival and festvox-kdlpc16k are installed. */
export function unheardVoices(): Unheard[] {
  const rms: Unheard = { name: "rms", say: (text) => speak(text, "rms") };
  const ked = existsSync("/usr/share/festival/voices/english/ked_diphone");
  return ked ? [rms, { name: "ked", say: sayKed }] : [rms];
}

const spelled = (text: string): string =>
  text
    .replace(/\bco2\b/g, "C O two")
    .replace(/\bo2\b/g, "O two")
    .replace(/\bco\b/g, "C O")
    .replace(/\bppm\b/g, "P P M");

async function sayKed(text: string): Promise<Recording> {
  const folder = mkdtempSync(`${tmpdir()}/hearing-`);
  const script = `(voice_ked_diphone) (set! said (SynthText "${spelled(text)}")) (utt.save.wave said "${folder}/x.wav" 'riff)`;
  writeFileSync(`${folder}/x.scm`, script);
  execFileSync("festival", ["-b", `${folder}/x.scm`]);
  return at16k(recordingOf(`${folder}/x.wav`));
}

function recordingOf(path: string): Recording {
  const read = readWav(readFileSync(path));
  if (!read.ok) throw new Error(`${path}: ${read.found}`);
  return read.recording;
}

async function at16k({ samples, rate }: Recording): Promise<Recording> {
  const resampler = await createResampler(rate, 16_000, "whole");
  const out = { rate: 16_000, samples: resampler.resample(samples) };
  resampler.destroy();
  return out;
}

const decoded = (opus: string): Recording => {
  const wav = `${mkdtempSync(`${tmpdir()}/hearing-`)}/x.wav`;
  execFileSync("opusdec", ["--quiet", "--rate", "16000", `${SPEECH}/${opus}`, wav]);
  return recordingOf(wav);
};

export interface Said {
  readonly said: string;
  readonly recording: Recording;
}

/** Whether ../shared/speech and opusdec are there. */
export function hasRecordings(): boolean {
  return existsSync(SPEECH) && existsSync("/usr/bin/opusdec");
}

/** Strings of one to four digits of the speaker that was held out (Free Spoken Digit Dataset, 8 kHz), of his takes `from` which. */
export function heldDigits(count: number, from: (take: number) => boolean = () => true): Said[] {
  const words = "zero one two three four five six seven eight nine".split(" ");
  const files = readdirSync(`${SPEECH}/digits`)
    .filter((file) => file.includes("_yweweler_") && from(Number(file.match(/_(\d+)\.opus$/)?.[1])))
    .sort();
  return Array.from({ length: count }, (_, turn) => {
    const chosen = [0, 1, 2, 3]
      .slice(0, 1 + (turn % 4))
      .map((n) => files[(turn * 37 + n * 151) % files.length] ?? "");
    const parts = chosen.flatMap((file) => [...decoded(`digits/${file}`).samples, ...new Float32Array(1600)]);
    return {
      said: chosen.map((file) => words[Number(file[0])] ?? "").join(" "),
      recording: { rate: 16_000, samples: Float32Array.from(parts) },
    };
  });
}

/** Sentences without numbers of the adults that were held out: every ninth speaker (speechocean762), as in corpus.py. */
export function heldSentences(count: number): Said[] {
  const rows = readFileSync(`${SPEECH}/sentences.tsv`, "utf8")
    .trim()
    .split("\n")
    .slice(1)
    .map((row) => row.split("\t"));
  const held = new Set(
    [...new Set(rows.map(([, speaker]) => speaker))].sort().filter((_, at) => at % 9 === 0),
  );
  const numbers = /\b(zero|oh|one|two|three|four|five|six|seven|eight|nine|ten)\b/i;
  return rows
    .filter(([, speaker, age, , text]) => held.has(speaker) && Number(age) >= 18 && !numbers.test(text ?? ""))
    .slice(0, count)
    .map(([file = "", , , , text = ""]) => ({ said: text.toLowerCase(), recording: decoded(file) }));
}
