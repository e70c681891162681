import type { Recording } from "../../../src/device/ears/offline/recording.ts";
import { HOP_COLUMNS } from "../../../src/device/spotter/alone.ts";
import type { SpotterModel } from "../../../src/device/spotter/base.ts";
import { createCommands } from "../../../src/device/spotter/commands.ts";
import { scoresOf } from "../../../src/device/spotter/gain.ts";
import { HOP } from "../../../src/device/spotter/spectrogram.ts";
import { KEY_WORDS, type KeyWord, SPOTTER_RATE } from "../../../src/device/spotter/words.ts";
import { NOISES, noise, seeded } from "../hearing/noise.ts";
import { TALK } from "../hearing/phrases.ts";
import { hasRecordings, heldSentences, unheardVoices } from "../hearing/voices.ts";
import { digit, FIGURES, hasDigits, trimmed } from "./digits.ts";
import { placed, windowsIn } from "./windows.ts";

const RATE = 16_000;
const STEP_MS = (1000 * HOP_COLUMNS * HOP) / SPOTTER_RATE;
const LEVELS: readonly (number | null)[] = [null, 20, 10, 5, 0];

/** What the spotter makes of a stretch of sound: the words in their order, each with whether it answers (quiet before it) and commands (quiet behind it, too). */
async function heardIn(model: SpotterModel, sound: Recording) {
  const windows = await windowsIn(sound, HOP_COLUMNS);
  const scores = await scoresOf(model, windows);
  const commands = createCommands();
  const told = windows.map((spectrogram, place) =>
    commands.take({ spectrogram, scores: scores[place] ?? new Float32Array(), at: place * STEP_MS }, false),
  );
  return {
    heard: told.flatMap(({ heard }) => heard?.word.word ?? []),
    answers: told.flatMap(({ heard }) => (heard?.begins ? heard.word.word : [])),
    commands: told.flatMap(({ alone }) => alone?.word ?? []),
    seconds: (windows.length * STEP_MS) / 1000,
  };
}

interface Said {
  readonly voice: string;
  readonly word: KeyWord;
  readonly recording: Recording;
}

async function said(quick: boolean): Promise<Said[]> {
  const all: Said[] = [];
  for (const { name, say } of unheardVoices())
    for (const word of KEY_WORDS) all.push({ voice: name, word, recording: trimmed(await say(word)) });
  if (!hasDigits()) return all;
  for (const [figure, word] of FIGURES.entries())
    for (const take of quick ? [2] : [2, 7, 20, 31, 40, 47])
      all.push({ voice: "yweweler", word, recording: digit("yweweler", figure, take) });
  return all;
}

/** How many of the words of voices never trained on are heard, level by level, and word by word. */
export async function measureWords(
  model: SpotterModel,
  quick: boolean,
  print: (line: string) => void,
): Promise<void> {
  const words = await said(quick);
  const people = await talkers(4);
  const perWord = new Map<KeyWord, { right: number; of: number }>();
  let seed = 0;
  for (const decibels of LEVELS) {
    const tallies = new Map<string, { right: number; wrong: number; commands: number; of: number }>();
    for (const { voice, word, recording } of words) {
      // Each word of a synthetic voice there is once: in another noise each time.
      for (let again = 0; again < (voice === "yweweler" || quick ? 1 : 3); again++) {
        seed += 1;
        const how = { room: 1.3, decibels, seed: 7 * seed + again, talk: people };
        const { heard, commands } = await heardIn(model, placed(recording, how));
        const tally = tallies.get(voice) ?? { right: 0, wrong: 0, commands: 0, of: 0 };
        const isRight = heard[0] === word;
        tallies.set(voice, {
          right: tally.right + Number(isRight),
          wrong: tally.wrong + Number(heard.length > 0 && !isRight),
          commands: tally.commands + Number(commands[0] === word),
          of: tally.of + 1,
        });
        const one = perWord.get(word) ?? { right: 0, of: 0 };
        perWord.set(word, { right: one.right + Number(isRight), of: one.of + 1 });
      }
    }
    const parts = [...tallies].map(
      ([voice, { right, wrong, commands, of }]) =>
        `${voice} ${percent(right, of)} heard, ${percent(wrong, of)} as another word, ${percent(commands, of)} as a command, of ${of}`,
    );
    print(`${decibels === null ? "quiet" : `${decibels} dB`}: ${parts.join("; ")}`);
  }
  print(
    `each word, all levels and voices: ${[...perWord].map(([word, { right, of }]) => `${word} ${percent(right, of)}`).join(", ")}`,
  );
}

/** Sentences of people, and of voices, in which no key word is a command. */
async function talkers(count: number): Promise<Float32Array[]> {
  const [first] = unheardVoices();
  if (!first) throw new Error("Expected one voice at least.");
  return Promise.all(TALK.slice(0, count).map(async (text) => (await first.say(text)).samples));
}

/** How often a key word is heard that nobody said to the app: in talk at 20 dB, and in noise alone. */
export async function measureFalse(
  model: SpotterModel,
  quick: boolean,
  print: (line: string) => void,
): Promise<void> {
  const talk: Recording[] = [];
  for (const { say } of unheardVoices())
    for (const text of quick ? TALK.slice(0, 3) : TALK) talk.push(await say(text));
  if (hasRecordings()) for (const { recording } of heldSentences(quick ? 20 : 300)) talk.push(recording);
  const total = new Tally();
  for (const [at, recording] of talk.entries())
    total.add(await heardIn(model, placed(recording, { room: 0.8, decibels: 20, seed: 500 + at, talk: [] })));
  print(`talk at 20 dB, ${talk.length} recordings: ${total.line()}`);
  const alone = new Tally();
  const people = await talkers(4);
  for (let minute = 0; minute < (quick ? 5 : 60); minute++) {
    const kind = NOISES[minute % NOISES.length] ?? "burner";
    const samples = noise(kind, 60 * RATE, RATE, seeded(9000 + minute), people).map(
      (sample) => 0.05 * sample,
    );
    alone.add(await heardIn(model, { rate: RATE, samples }));
  }
  print(`noise alone (a fifth of it with people talking elsewhere): ${alone.line()}`);
}

/** Counts, and what they come to in an hour. */
class Tally {
  readonly #counts = { heard: 0, answers: 0, commands: 0, seconds: 0 };
  readonly #steering: KeyWord[] = [];

  add({ heard, answers, commands, seconds }: Awaited<ReturnType<typeof heardIn>>): void {
    this.#counts.heard += heard.length;
    this.#counts.answers += answers.length;
    this.#counts.commands += commands.length;
    this.#counts.seconds += seconds;
    this.#steering.push(...commands.filter((word) => ["again", "next", "stop", "mark"].includes(word)));
  }

  line(): string {
    const { heard, answers, commands, seconds } = this.#counts;
    const hourly = (count: number): string => `${count} (${((count * 3600) / seconds).toFixed(1)} an hour)`;
    return (
      `${(seconds / 60).toFixed(1)} min; in figures ${hourly(heard)}, as an answer ${hourly(answers)}, as a command ${hourly(commands)}, ` +
      `of these that steer ${hourly(this.#steering.length)}${this.#steering.length > 0 ? `: ${this.#steering.join(", ")}` : ""}`
    );
  }
}

const percent = (part: number, of: number): string => `${((100 * part) / of).toFixed(0)} %`;
