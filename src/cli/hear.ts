import { readFile, stat } from "node:fs/promises";
import { loadEarAssets } from "../device/ears/offline/assets-node.ts";
import type { EarAssets } from "../device/ears/offline/recogniser.ts";
import { hearRecording, type Recording } from "../device/ears/offline/recording.ts";
import { choose } from "../meaning/choose.ts";
import type { Utterance } from "../meaning/heard.ts";
import type { Item, Unsure } from "../meaning/item.ts";
import type { Language } from "../meaning/network.ts";
import { createParser, type Parser } from "../meaning/parser.ts";
import { loadLanguage } from "./language.ts";
import type { Io, Verb } from "./verb.ts";
import { LARGEST_BYTES, readWav, WAV_EXPECTED } from "./wav.ts";

/** What one recording said: the command line's contract. */
export interface HeardFile {
  readonly file: string;
  /** The words of all utterances in it, in order; rejected ones are left out. */
  readonly words: string;
  /** 0 to 1: of the utterance that is least sure; 0 where there was none. */
  readonly confidence: number;
  /** Nothing in it was for the log. */
  readonly rejected: boolean;
  readonly items: readonly Item[];
  readonly unsure: readonly Unsure[];
  readonly audioSeconds: number;
  readonly computeSeconds: number;
}

/** Exit status 0 if every file could be read; an unreadable one is named on standard error and the others still run. */
export const hear: Verb = {
  usage: "hear FILE.wav…",
  run: async (files, io) => {
    if (files.length === 0) {
      io.say(`hear: expected the names of recordings, each ${WAV_EXPECTED}.`);
      return 2;
    }
    const ear = await openNodeEar(loadLanguage());
    let status = 0;
    for (const file of files) {
      const recording = await readRecording(file, io);
      if (!recording || !(await report(ear, file, recording, io))) status = 1;
    }
    return status;
  },
};

/** Writes what one recording said; false, with a sentence, if the speech engine gave up on it. */
async function report(ear: NodeEar, file: string, recording: Recording, io: Io): Promise<boolean> {
  try {
    io.json(await ear.hear(file, recording));
    return true;
  } catch (error) {
    io.say(`hear: ${file}: expected sound that the speech engine can take; it stopped (${reason(error)}).`);
    return false;
  }
}

function reason(error: unknown): string {
  return error instanceof Error ? error.message : String(error);
}

/** The offline ear on recordings, for Node. */
export interface NodeEar {
  /** Hears one recording; `file` is only its name in the result. Recordings do not influence one another. */
  hear(file: string, recording: Recording): Promise<HeardFile>;
}

/** Loads the offline ear and a parser for a language. */
export async function openNodeEar(language: Language): Promise<NodeEar> {
  const assets: EarAssets = await loadEarAssets();
  const parser = createParser(language);
  return {
    hear: async (file, recording) => {
      const before = performance.now();
      const utterances = await hearRecording(assets, language, recording, () => performance.now());
      return {
        ...summary(file, utterances, parser),
        audioSeconds: round(recording.samples.length / recording.rate),
        computeSeconds: round((performance.now() - before) / 1000),
      };
    },
  };
}

function summary(
  file: string,
  utterances: readonly Utterance[],
  parser: Parser,
): Omit<HeardFile, "audioSeconds" | "computeSeconds"> {
  const phrases = utterances.flatMap((utterance) => choose(utterance, (text) => parser.parse(text)) ?? []);
  const meanings = phrases.map(({ text, confidence, confidences }) =>
    parser.parse(text, undefined, confidences ?? confidence),
  );
  return {
    file,
    words: phrases.map(({ text }) => text).join(" "),
    confidence: phrases.length === 0 ? 0 : round(Math.min(...phrases.map(({ confidence }) => confidence))),
    rejected: phrases.length === 0,
    items: meanings.flatMap(({ items }) => items),
    unsure: meanings.flatMap(({ unsure }) => unsure),
  };
}

async function readRecording(file: string, io: Io): Promise<Recording | null> {
  let bytes: Uint8Array;
  try {
    const { size } = await stat(file);
    if (size > LARGEST_BYTES) {
      io.say(`hear: ${file}: expected ${WAV_EXPECTED}; found: ${size} bytes.`);
      return null;
    }
    bytes = await readFile(file);
  } catch (error) {
    io.say(`hear: ${file}: expected a file that can be read (${reason(error)}).`);
    return null;
  }
  const read = readWav(bytes);
  if (read.ok) return read.recording;
  io.say(`hear: ${file}: expected ${WAV_EXPECTED}; found: ${read.found}.`);
  return null;
}

function round(value: number): number {
  return Math.round(value * 1000) / 1000;
}
