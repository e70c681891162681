/**
 * How well the offline ear hears, on this machine: `npm run bench:hearing`. Phrases for the log in four
 * synthetic voices, in quiet and in steady noise, and, where ../shared/speech is present, recordings of people: digits
 * (right if heard) and sentences of adults that are not for the log (right if rejected).
 */
import { execFileSync } from "node:child_process";
import { existsSync, mkdtempSync, readdirSync, readFileSync } from "node:fs";
import { tmpdir } from "node:os";
import { fileURLToPath } from "node:url";
import { type HeardFile, type NodeEar, openNodeEar } from "../../src/cli/hear.ts";
import { loadLanguage } from "../../src/cli/language.ts";
import { readWav } from "../../src/cli/wav.ts";
import type { Recording } from "../../src/device/ears/offline/recording.ts";
import { createParser } from "../../src/meaning/parser.ts";
import { shortItem } from "../support/short.ts";
import { numbersLanguage } from "../support/speech/numbers-language.ts";
import { speak, VOICES } from "../support/speech/speak.ts";

const SPEECH = fileURLToPath(new URL("../../../shared/speech", import.meta.url));
const SENTENCES = Number(process.argv[2] ?? 60);

const PHRASES = [
  "high fire",
  "high fire co2 nine point two co forty",
  "low fire co2 eight point seven co twelve",
  "co2 eight point nine percent",
  "o2 four point five",
  "co eighty five",
  "co one hundred twenty",
  "flue temperature one hundred thirty five",
  "inlet gas pressure seven point two",
  "dynamic gas pressure nine point eight",
  "manifold pressure three point five",
  "half a turn clockwise",
  "turned the low fire screw an eighth turn counterclockwise",
  "scratch that",
  "no nine point four",
  "read back",
  "what's next",
  "co2 eight point three co fifteen",
];

interface Case {
  readonly said: string;
  readonly recording: Recording;
}

/** How often what was said was logged right, passed over or asked again, logged otherwise, and what it cost. */
interface Tally {
  right: number;
  rejected: number;
  asked: number;
  wrong: number;
  errors: number;
  words: number;
  audio: number;
  compute: number;
}

const parser = createParser(loadLanguage());
const meaningOf = (said: string): string => parser.parse(said).items.map(shortItem).join("; ");
const heardAs = ({ items }: HeardFile): string => items.map(shortItem).join("; ");

/** `meant` and `logged` say what is compared: the items, unless told otherwise. */
async function tally(
  name: string,
  ear: NodeEar,
  cases: readonly Case[],
  meant = meaningOf,
  logged = heardAs,
): Promise<void> {
  const sum: Tally = { right: 0, rejected: 0, asked: 0, wrong: 0, errors: 0, words: 0, audio: 0, compute: 0 };
  const wrong: string[] = [];
  for (const { said, recording } of cases) {
    const heard = await ear.hear(said, recording);
    sum.audio += heard.audioSeconds;
    sum.compute += heard.computeSeconds;
    if (!heard.rejected) {
      sum.errors += distance(said.split(" "), heard.words.split(" "));
      sum.words += said.split(" ").length;
    }
    if (heard.rejected) sum.rejected += 1;
    else if (heard.unsure.length > 0 && heard.items.length === 0) sum.asked += 1;
    else if (logged(heard) === meant(said)) sum.right += 1;
    else {
      sum.wrong += 1;
      wrong.push(`  "${said}" -> "${heard.words}" (${heard.confidence})`);
    }
  }
  const share = (part: number): string => `${((100 * part) / cases.length).toFixed(1)} %`;
  print(
    `${name}: ${cases.length} recordings, right ${share(sum.right)}, asked ${share(sum.asked)}, ` +
      `passed over ${share(sum.rejected)}, wrong ${share(sum.wrong)}, ` +
      `word errors of those not passed over ${((100 * sum.errors) / Math.max(1, sum.words)).toFixed(1)} %, ` +
      `compute per second of sound ${(sum.compute / sum.audio).toFixed(2)} s`,
  );
  for (const line of wrong) print(line);
}

/** Words to put in, leave out or change (Levenshtein). */
function distance(a: readonly string[], b: readonly string[]): number {
  let row = Array.from({ length: b.length + 1 }, (_, index) => index);
  for (const [i, word] of a.entries()) {
    const next = [i + 1];
    for (const [j, other] of b.entries()) {
      const change = (row[j] ?? 0) + (word === other ? 0 : 1);
      next.push(Math.min(change, (row[j + 1] ?? 0) + 1, (next[j] ?? 0) + 1));
    }
    row = next;
  }
  return row.at(-1) ?? 0;
}

/** Steady low-pass noise at a signal-to-noise ratio in dB against the mean power of the speech. */
function noisy({ samples, rate }: Recording, decibels: number): Recording {
  let seed = 11;
  let low = 0;
  const noise = Float32Array.from(samples, () => {
    seed = (Math.imul(seed, 1_664_525) + 1_013_904_223) >>> 0;
    low = 0.9 * low + 0.1 * (seed / 2 ** 31 - 1);
    return low;
  });
  const power = (x: Float32Array): number => x.reduce((sum, value) => sum + value * value, 0) / x.length;
  const gain = Math.sqrt(power(samples) / power(noise) / 10 ** (decibels / 10));
  return { rate, samples: samples.map((sample, index) => sample + gain * (noise[index] ?? 0)) };
}

function decode(opus: string): Recording {
  const wav = `${mkdtempSync(`${tmpdir()}/hearing-`)}/x.wav`;
  execFileSync("opusdec", ["--quiet", "--rate", "16000", `${SPEECH}/${opus}`, wav]);
  const read = readWav(readFileSync(wav));
  if (!read.ok) throw new Error(`${opus}: ${read.found}`);
  return read.recording;
}

/** Strings of four digits of one speaker, a tenth of a second apart: recordings of single digits put in a row. */
function digitStrings(): Case[] {
  const words = ["zero", "one", "two", "three", "four", "five", "six", "seven", "eight", "nine"];
  const files = readdirSync(`${SPEECH}/digits`).sort();
  return ["george", "jackson", "nicolas", "yweweler"].flatMap((speaker) =>
    [0, 1, 2, 3, 4].map((turn) => {
      const digits = [0, 3, 6, 9].map((step) => (step + 2 * turn) % 10);
      const gap = new Float32Array(1600);
      const parts = digits.flatMap((digit) => {
        const own = files.filter((file) => file.startsWith(`${digit}_${speaker}_`));
        return [decode(`digits/${own[turn % own.length]}`).samples, gap];
      });
      return {
        said: digits.map((digit) => words[digit]).join(" "),
        recording: { rate: 16_000, samples: Float32Array.from(parts.flatMap((part) => [...part])) },
      };
    }),
  );
}

/** Sentences of adults without a word of numbers, spread over the whole list. */
function sentences(): Case[] {
  const rows = readFileSync(`${SPEECH}/sentences.tsv`, "utf8").trim().split("\n").slice(1);
  const numbers = /\b(zero|oh|one|two|three|four|five|six|seven|eight|nine|ten)\b/;
  const adult = rows
    .map((row) => row.split("\t"))
    .filter(([, , age, , text]) => Number(age) >= 18 && !numbers.test(text ?? ""));
  const step = Math.floor(adult.length / SENTENCES);
  return adult
    .filter((_, index) => index % step === 0)
    .slice(0, SENTENCES)
    .map(([file = "", , , , text = ""]) => ({ said: text, recording: decode(file) }));
}

function print(line: string): void {
  process.stdout.write(`${line}\n`);
}

const before = performance.now();
const ear = await openNodeEar(loadLanguage());
print(`loading: ${((performance.now() - before) / 1000).toFixed(2)} s`);
const clean: Case[] = [];
for (const voice of VOICES) {
  for (const said of PHRASES) clean.push({ said, recording: await speak(said, voice) });
}
await tally("phrases, quiet", ear, clean);
if (existsSync(SPEECH)) {
  await tally("sentences of adults, not for the log", ear, sentences());
  const digits = await openNodeEar(numbersLanguage());
  await tally(
    "digits of adults, grammar of numbers",
    digits,
    digitStrings(),
    (said) => said,
    ({ words }) => words,
  );
}
const some = clean.filter((_, index) => index % 3 === 0);
for (const decibels of [10, 5]) {
  const cases = some.map(({ said, recording }) => ({ said, recording: noisy(recording, decibels) }));
  await tally(`phrases, noise at ${decibels} dB`, ear, cases);
}
print(`memory: ${Math.round(process.memoryUsage().rss / 2 ** 20)} MiB`);
