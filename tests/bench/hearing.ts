/**
 * How well the offline ear hears, on this machine: `npm run bench:hearing [-- --quick]`. Voices, speakers and noise that
 * the models have not been trained or tuned on: Flite's `rms`, festival's `ked` where installed, and where
 * ../shared/speech is present a held-out speaker of digits and held-out speakers of sentences that are not for the log.
 */
import * as tf from "@tensorflow/tfjs-core";
import { loadLanguage } from "../../src/cli/language.ts";
import { loadEarAssets } from "../../src/device/ears/offline/assets-node.ts";
import { createRecogniser, type Sounded } from "../../src/device/ears/offline/recogniser.ts";
import type { Recording } from "../../src/device/ears/offline/recording.ts";
import { createParser } from "../../src/meaning/parser.ts";
import { numbersLanguage } from "../support/speech/numbers-language.ts";
import { NOISES, noise, seeded, withNoise } from "./hearing/noise.ts";
import { PHRASES, TALK } from "./hearing/phrases.ts";
import { calibration, Tally, utterancesIn } from "./hearing/tally.ts";
import { hasRecordings, heldDigits, heldSentences, type Said, unheardVoices } from "./hearing/voices.ts";
import { openPeer } from "./peer/load.ts";

const quick = process.argv.includes("--quick");
const LEVELS = [30, 20, 10, 5, 0];
const RATE = 16_000;
/** The microphone hears the room before and after a phrase. */
const ROOM = 0.8 * RATE;
const NOISE_MINUTES = quick ? 2 : 20;

const print = (line: string): void => void process.stdout.write(`${line}\n`);
const language = loadLanguage();
const parser = createParser(language);
const assets = await loadEarAssets();
const clock = (): number => performance.now();

const spoken: Said[] = [];
for (const [at, { say }] of unheardVoices().entries()) {
  for (const said of PHRASES.filter((_, n) => !quick || n % 4 === at)) {
    spoken.push({ said, recording: await say(said) });
  }
}
const talk: Said[] = [];
for (const { say } of unheardVoices()) {
  for (const said of quick ? TALK.slice(0, 4) : TALK) talk.push({ said, recording: await say(said) });
}
const background = talk.slice(0, 8).map(({ recording }) => recording.samples);

/** In a room with noise before, during and after. */
function inRoom({ samples }: Recording, decibels: number, seed: number): Recording {
  const whole = new Float32Array(samples.length + 2 * ROOM);
  whole.set(samples, ROOM);
  const kind = NOISES[seed % NOISES.length] ?? "burner";
  return withNoise(
    { rate: RATE, samples: whole },
    noise(kind, whole.length, RATE, seeded(seed), background),
    decibels,
  );
}

const ear = createRecogniser(assets, language, clock);
const spent = { sound: 0, compute: 0 };
const waits: number[] = [];

/** Through the whole chain, 10 ms at a time, as the microphone brings it. `end`: the sample at which the speech ends. */
function hear(recogniser: typeof ear, { samples }: Recording, end: number | null): Sounded[] {
  const out: Sounded[] = [];
  recogniser.reset();
  for (let at = 0; at < samples.length; at += 160) {
    const before = clock();
    const heard = recogniser.hear(samples.subarray(at, at + 160));
    const took = clock() - before;
    spent.compute += took / 1000;
    if (end !== null && heard.some(({ kind }) => kind === "utterance"))
      waits.push((at + 160 - end) / RATE + took / 1000);
    out.push(...heard);
  }
  spent.sound += samples.length / RATE;
  return [...out, ...recogniser.finish()];
}

/** The last sample that is not next to silent. */
const endOf = ({ samples }: Recording): number =>
  ROOM + samples.findLastIndex((sample) => Math.abs(sample) > 0.02);

print(
  `voices: ${unheardVoices()
    .map(({ name }) => name)
    .join(", ")}; ${spoken.length} phrases at each level`,
);
const all: Tally["trusted"] = [];
for (const decibels of LEVELS) {
  const tally = new Tally(parser);
  for (const [at, { said, recording }] of spoken.entries()) {
    const heard = hear(ear, inRoom(recording, decibels, at + 1), endOf(recording));
    tally.utterances(said, utterancesIn(heard));
  }
  all.push(...tally.trusted);
  print(`${decibels} dB: of ${tally.said} things said ${tally.line()}`);
  for (const mistake of tally.mistakes) print(`  wrong: ${mistake}`);
}
print("confidence of what was heard, and how much of it was right:");
for (const line of calibration(all)) print(line);
waits.sort((a, b) => a - b);
const wait = (share: number): string => (waits[Math.floor(share * (waits.length - 1))] ?? 0).toFixed(2);
print(`from the end of speech to the answer: median ${wait(0.5)} s, nine in ten ${wait(0.9)} s`);
print(`compute per second of sound: ${(spent.compute / spent.sound).toFixed(3)} s`);

const talkers = [...talk, ...(hasRecordings() ? heldSentences(quick ? 20 : 135) : [])];
const phantoms = new Tally(parser);
let seconds = 0;
for (const [at, { recording }] of talkers.entries()) {
  const sound = inRoom(recording, 20, at + 500);
  seconds += sound.samples.length / RATE;
  phantoms.utterances("", utterancesIn(hear(ear, sound, null)));
}
print(
  `talk that is not for the log: ${talkers.length} recordings, ${(seconds / 60).toFixed(1)} min, logged ${phantoms.wrong}, of them with a number ${phantoms.numbers}`,
);
for (const mistake of phantoms.mistakes) print(`  ${mistake}`);
const alone = new Tally(parser);
for (let minute = 0; minute < NOISE_MINUTES; minute++) {
  const kind = NOISES[minute % 4] ?? "burner";
  const samples = noise(kind, 60 * RATE, RATE, seeded(9000 + minute), []).map((sample) => 0.05 * sample);
  alone.utterances("", utterancesIn(hear(ear, { rate: RATE, samples }, null)));
}
print(`noise alone: ${NOISE_MINUTES} min, logged ${alone.wrong}`);

if (hasRecordings()) {
  const digits = createRecogniser(assets, numbersLanguage(), clock);
  for (const decibels of [30, 10]) {
    const cases = heldDigits(quick ? 12 : 80);
    const right = cases.filter(({ said, recording }, at) => {
      const heard = utterancesIn(hear(digits, inRoom(recording, decibels, at + 700), null));
      return (
        heard.flatMap(({ hypotheses }) => hypotheses[0]?.words.map(({ word }) => word) ?? []).join(" ") ===
        said
      );
    });
    print(
      `strings of digits of a speaker held out, ${decibels} dB: ${right.length} of ${cases.length} exactly right`,
    );
  }
} else print("no ../shared/speech or no opusdec: recordings of people left out");

const { numBytes } = tf.memory();
print(
  `memory: ${Math.round(process.memoryUsage().rss / 2 ** 20)} MiB, of that weights ${(numBytes / 2 ** 20).toFixed(0)} MiB`,
);
const peer = await openPeer(language);
for (const decibels of [30, 10]) {
  const tally = new Tally(parser);
  for (const [at, { said, recording }] of spoken.filter((_, n) => n % (quick ? 4 : 2) === 0).entries()) {
    const { hypothesis, rejected } = await peer.hear(inRoom(recording, decibels, at + 1));
    const text = hypothesis.words.map(({ word }) => word).join(" ");
    const { confidence } = hypothesis;
    tally.phrases(
      said,
      rejected || text === "" ? [] : [{ text, engine: "offline", confidence, sound: null }],
    );
  }
  print(`PocketSphinx behind RNNoise, the same grammar, ${decibels} dB: ${tally.line()}`);
}
