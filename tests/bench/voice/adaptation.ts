/**
 * What the phrase recogniser gains where it learned from what a person confirmed: `npx tsx tests/bench/voice/adaptation.ts
 * [--quick] [--speaker NAME] [--unguarded]`. Speakers that no model was trained on: Flite's `rms`, festival's `ked` where installed, and where ../shared/speech
 * is present the held-out speaker of digits. Each logs phrases in rooms of 30, 22 and 16 dB; what the shipped ear heard right, kept as Opus of
 * 20 kbit/s where opusenc is installed, is what he confirmed. Measured on other phrases.
 */
import { execFileSync } from "node:child_process";
import { existsSync, mkdtempSync, readFileSync, rmSync, writeFileSync } from "node:fs";
import { tmpdir } from "node:os";
import { fileURLToPath } from "node:url";
import { loadLanguage } from "../../../src/cli/language.ts";
import { readWav } from "../../../src/cli/wav.ts";
import { wavClip } from "../../../src/device/clips/wav.ts";
import { createAcoustic } from "../../../src/device/ears/offline/acoustic.ts";
import {
  type ConfirmedClip,
  guarded,
  type Heard,
  tryPhones,
} from "../../../src/device/ears/offline/adapt.ts";
import { loadEarAssets } from "../../../src/device/ears/offline/assets-node.ts";
import { createMel, EAR_RATE, phoneFeatures } from "../../../src/device/ears/offline/mel.ts";
import type { PhoneHead } from "../../../src/device/ears/offline/own-head.ts";
import { createRecogniser, type EarAssets } from "../../../src/device/ears/offline/recogniser.ts";
import type { Recording } from "../../../src/device/ears/offline/recording.ts";
import { Weights } from "../../../src/device/ears/offline/weights.ts";
import { choose } from "../../../src/meaning/choose.ts";
import type { Utterance } from "../../../src/meaning/heard.ts";
import type { EarLanguage } from "../../../src/meaning/network.ts";
import { createParser } from "../../../src/meaning/parser.ts";
import { shortItem } from "../../support/short.ts";
import { numbersLanguage } from "../../support/speech/numbers-language.ts";
import { NOISES, noise, seeded, withNoise } from "../hearing/noise.ts";
import { PHRASES, TALK } from "../hearing/phrases.ts";
import { calibration, Tally, utterancesIn } from "../hearing/tally.ts";
import { hasRecordings, heldDigits, heldSentences, type Said, unheardVoices } from "../hearing/voices.ts";
import { loggedPhrases } from "./logged.ts";

type Print = (line: string) => void;

/** The microphone hears the room before and after a phrase. */
const ROOM = 0.8 * EAR_RATE;
const LEARNED_IN = [30, 22, 16];
const MEASURED_IN = [30, 10, 5];
/** From here on a number is logged without a question (`src/meaning/assemble.ts`). */
const LOGGED = 0.85;
const clock = (): number => performance.now();

/**
 * @param quick a third of the phrases: for a look, not for a figure
 * @param only one speaker ("rms", "ked", "yweweler"); null for all
 * @param unguarded what the guard refused is measured, too
 */
export async function measureAdaptation(
  print: Print,
  quick: boolean,
  only: string | null = null,
  unguarded = false,
): Promise<void> {
  const assets = await loadEarAssets();
  const few = <T>(list: readonly T[]): T[] => list.filter((_, at) => !quick || at % 3 === 0);
  const learned = loggedPhrases(quick ? 45 : 80, 11, PHRASES);
  const measured = few([...PHRASES, ...loggedPhrases(60, 77, [...PHRASES, ...learned])]);
  for (const { name, say } of unheardVoices()) {
    if (only !== null && only !== name) continue;
    const saidBy = async (phrases: readonly string[]): Promise<Said[]> => {
      const all: Said[] = [];
      for (const said of phrases) all.push({ said, recording: await say(said) });
      return all;
    };
    const talk = await saidBy(TALK);
    const around = talk.slice(0, 8).map(({ recording }) => recording.samples);
    const ears = phraseEars(assets, around);
    const talkers = few([...talk, ...(hasRecordings() ? heldSentences(60) : [])]);
    const test = await saidBy(measured);
    const clips = ears.confirmed(await saidBy(learned));
    const head = adapted(print, name, assets, ears.language, clips, unguarded);
    print("  before:");
    ears.measure(print, test, talkers, undefined);
    if (!head) continue;
    print("  after:");
    ears.measure(print, test, talkers, head);
  }
  if (only !== null && only !== "yweweler") return;
  if (hasRecordings()) measureDigits(print, assets, quick, unguarded);
  else print("no ../shared/speech or no opusdec: the speaker of digits is left out");
}

/** Learns, says how it went, and gives what was kept; with `unguarded` also what was not. */
function adapted(
  print: Print,
  name: string,
  assets: EarAssets,
  language: EarLanguage,
  clips: readonly ConfirmedClip[],
  unguarded: boolean,
): PhoneHead | null {
  const minutes = clips.reduce((sum, { sound }) => sum + sound.length, 0) / EAR_RATE / 60;
  const [began, used] = [clock(), process.cpuUsage()];
  const tried = tryPhones(assets, language, clips, () => undefined);
  const { user, system } = process.cpuUsage(used);
  const took = ((clock() - began) / 1000).toFixed(1);
  print(
    `${name}: ${clips.length} confirmed phrases, ${minutes.toFixed(1)} min; ${took} s to learn, ${((user + system) / 1e6).toFixed(1)} s of processor time`,
  );
  if ("found" in tried) {
    print(`  too few: ${tried.found}`);
    return null;
  }
  const outcome = guarded(tried);
  const kept =
    outcome.kind === "no-better"
      ? `not kept (${outcome.because})`
      : `kept, ${100 * tried.share} % of the way`;
  print(
    `  guard: of ${tried.heldBack} held back ${told(tried.before)} before, ${told(tried.after)} after: ${kept}`,
  );
  return outcome.kind === "better" || unguarded ? tried.head : null;
}

function told({ right, plainRight, wrong, phantoms }: Heard): string {
  return `${right} right (${plainRight} without added noise), ${wrong} wrong, ${phantoms} backwards taken for words`;
}

function phraseEars(assets: EarAssets, around: readonly Float32Array[]) {
  const language = loadLanguage();
  const parser = createParser(language);
  const meaning = (text: string): string => parser.parse(text).items.map(shortItem).join();
  const weights = new Weights(assets.manifest, assets.weights);
  const phonesOf = (text: string): number[] =>
    text
      .split(" ")
      .flatMap((word) =>
        (language.lexicon[word]?.[0] ?? "").split(" ").map((one) => weights.phones.indexOf(one)),
      );

  /** Those that were heard as one phrase, with the meaning that was said, and asked about at most. */
  const confirmed = (said: readonly Said[]): ConfirmedClip[] => {
    const ear = createRecogniser(assets, language, clock);
    const clips = said.flatMap(({ said, recording }, at): ConfirmedClip[] => {
      const room = inRoom(recording, LEARNED_IN[at % LEARNED_IN.length] ?? 30, at + 3000, around);
      const [utterance, ...more] = heardBy(ear, room);
      const phrase = utterance ? choose(utterance, (text) => parser.parse(text)) : null;
      if (!phrase?.sound || more.length > 0 || meaning(phrase.text) !== meaning(said)) return [];
      return [{ text: phrase.text, sound: asKept(phrase.sound) }];
    });
    ear.destroy();
    return clips;
  };

  const measure = (
    print: Print,
    test: readonly Said[],
    talkers: readonly Said[],
    head: PhoneHead | undefined,
  ): void => {
    const own = head ? { ...assets, head } : assets;
    const ear = createRecogniser(own, language, clock);
    const acoustic = createAcoustic(weights, head);
    const trusted: Tally["trusted"] = [];
    for (const decibels of MEASURED_IN) {
      const tally = new Tally(parser);
      const phones = { said: 0, wrong: 0 };
      for (const [at, { said, recording }] of test.entries()) {
        const heard = heardBy(ear, inRoom(recording, decibels, at + 1, around));
        tally.utterances(said, heard);
        const [{ sound } = { sound: null }, ...more] = heard;
        if (!sound || more.length > 0) continue;
        const expected = phonesOf(said);
        phones.said += expected.length;
        phones.wrong += edits(expected, greedy(acoustic.chances(phoneFeatures(createMel().frames(sound)))));
      }
      trusted.push(...tally.trusted);
      print(
        `    ${decibels} dB: not logged right ${tally.said - tally.right} of ${tally.said} (${tally.line()}); phone errors ${((100 * phones.wrong) / phones.said).toFixed(1)} %`,
      );
      for (const mistake of tally.mistakes) print(`      wrong: ${mistake}`);
    }
    for (const line of calibration(trusted)) print(`    confidence${line.slice(1)} right`);
    const phantoms = new Tally(parser);
    for (const [at, { recording }] of talkers.entries())
      phantoms.utterances("", heardBy(ear, inRoom(recording, 20, at + 500, around)));
    print(
      `    talk that is not for the log: ${talkers.length} recordings, logged ${phantoms.wrong}, of them with a number ${phantoms.numbers}`,
    );
    for (const mistake of phantoms.mistakes) print(`      ${mistake}`);
    ear.destroy();
    acoustic.destroy();
  };
  return { language, confirmed, measure };
}

/** Strings of digits: learned from the first half of his takes, measured on strings of the others. */
function measureDigits(print: Print, assets: EarAssets, quick: boolean, unguarded: boolean): void {
  const language = numbersLanguage();
  const words = ({ hypotheses }: Utterance): string =>
    hypotheses[0]?.words.map(({ word }) => word).join(" ") ?? "";
  const isLogged = ({ hypotheses, rejected }: Utterance): boolean =>
    !rejected && (hypotheses[0]?.confidence ?? 0) >= LOGGED;
  const ear = createRecogniser(assets, language, clock);
  const clips = heldDigits(80, (take) => take < 25).flatMap(({ said, recording }, at): ConfirmedClip[] => {
    const [heard, ...more] = heardBy(ear, inRoom(recording, LEARNED_IN[at % 3] ?? 30, at + 3000, []));
    return heard?.sound && more.length === 0 && words(heard) === said
      ? [{ text: said, sound: asKept(heard.sound) }]
      : [];
  });
  const head = adapted(print, "yweweler, digits", assets, language, clips, unguarded);
  const test = heldDigits(quick ? 24 : 100, (take) => take >= 25);
  for (const [when, own] of [
    ["before", assets] as const,
    ...(head ? [["after", { ...assets, head }] as const] : []),
  ]) {
    const ear = createRecogniser(own, language, clock);
    for (const decibels of MEASURED_IN) {
      const count = { right: 0, logged: 0, wrong: 0 };
      for (const [at, { said, recording }] of test.entries()) {
        const heard = heardBy(ear, inRoom(recording, decibels, at + 700, []));
        const isRight = heard.map(words).join(" ") === said;
        const isSure = heard.length > 0 && heard.every(isLogged);
        if (isRight) count.right += 1;
        if (isRight && isSure) count.logged += 1;
        if (!isRight && heard.some(isLogged)) count.wrong += 1;
      }
      print(
        `  ${when}, ${decibels} dB: not sure and right ${test.length - count.logged} of ${test.length} strings; exactly right ${count.right}, sure and wrong ${count.wrong}`,
      );
    }
    const phantoms = heldSentences(60).filter(({ recording }, at) =>
      heardBy(ear, inRoom(recording, 20, at + 500, [])).some(isLogged),
    );
    print(`  ${when}: of 60 sentences of others taken for digits, and sure: ${phantoms.length}`);
    ear.destroy();
  }
  ear.destroy();
}

/** In a room with noise before, during and after. */
function inRoom(
  { samples, rate }: Recording,
  decibels: number,
  seed: number,
  around: readonly Float32Array[],
): Recording {
  const whole = new Float32Array(samples.length + 2 * ROOM);
  whole.set(samples, ROOM);
  const kind = NOISES[seed % NOISES.length] ?? "burner";
  return withNoise({ rate, samples: whole }, noise(kind, whole.length, rate, seeded(seed), around), decibels);
}

function heardBy(ear: ReturnType<typeof createRecogniser>, { samples }: Recording): Utterance[] {
  ear.reset();
  return utterancesIn([...ear.hear(samples), ...ear.finish()]);
}

/** As the app keeps it: through Opus and back. */
function asKept(sound: Float32Array): Float32Array {
  if (!existsSync("/usr/bin/opusenc")) return sound;
  const folder = mkdtempSync(`${tmpdir()}/adaptation-`);
  writeFileSync(`${folder}/a.wav`, new Uint8Array(wavClip(sound).data));
  execFileSync("opusenc", ["--quiet", "--bitrate", "20", `${folder}/a.wav`, `${folder}/a.opus`]);
  execFileSync("opusdec", ["--quiet", "--rate", "16000", `${folder}/a.opus`, `${folder}/b.wav`]);
  const read = readWav(readFileSync(`${folder}/b.wav`));
  rmSync(folder, { recursive: true });
  if (!read.ok) throw new Error(read.found);
  return read.recording.samples;
}

/** The likeliest symbol of each step, repeats and blanks left out. */
function greedy({
  steps,
  symbols,
  logs,
}: ReturnType<ReturnType<typeof createAcoustic>["chances"]>): number[] {
  const tops = Array.from({ length: steps }, (_, step) => {
    const row = logs.subarray(step * symbols, (step + 1) * symbols);
    return row.indexOf(Math.max(...row));
  });
  return tops.filter((top, at) => top !== symbols - 1 && top !== tops[at - 1]);
}

/** How many phones are wrong, missing or too many (Levenshtein). */
function edits(expected: readonly number[], heard: readonly number[]): number {
  let row = Array.from({ length: heard.length + 1 }, (_, at) => at);
  for (const [above, phone] of expected.entries()) {
    const next = [above + 1];
    for (const [at, other] of heard.entries())
      next.push(
        Math.min((row[at + 1] ?? 0) + 1, (next[at] ?? 0) + 1, (row[at] ?? 0) + (phone === other ? 0 : 1)),
      );
    row = next;
  }
  return row.at(-1) ?? 0;
}

if (process.argv[1] === fileURLToPath(import.meta.url)) {
  const print: Print = (line) => void process.stdout.write(`${line}\n`);
  const at = process.argv.indexOf("--speaker");
  const only = at < 0 ? null : (process.argv[at + 1] ?? null);
  await measureAdaptation(
    print,
    process.argv.includes("--quick"),
    only,
    process.argv.includes("--unguarded"),
  );
}
