import type { ReadingPlan } from "../../../src/app/own-voice/plan.ts";
import {
  askNow,
  beginReading,
  type Reading,
  type ReadingEvent,
  type Step,
  takeEvent,
} from "../../../src/app/own-voice/reading.ts";
import { BINS, CLASSES, COLUMNS, type KeyWord, SPOTTER_RATE } from "../../../src/device/spotter/words.ts";
import { chance } from "../../support/valve/chance.ts";

/** A stretch of sound of one loudness (dB as `levelsOf` has it), ms after the person was asked. */
export interface Sound {
  readonly from: number;
  readonly to: number;
  readonly level: number;
}

/** What a person does when asked: sounds, and the word that the base model is sure of (null: it is not sure of any). */
export interface Answer {
  readonly sounds: readonly Sound[];
  readonly heard?: KeyWord | null;
}

export const SHORT_PLAN: ReadingPlan = {
  noiseSeconds: 3,
  words: ["nine", "two", "stop"],
  takes: 2,
  sentences: ["The cat slept."],
};

const COLUMN_MS = (1000 * 1024) / SPOTTER_RATE;
const HOP_MS = 200;
/** Bins above 300 Hz. */
const HEARD_BINS = BINS - 14;

/** A window of the spotter that ends at a time, of the room's noise and the sounds in it. */
export function windowAt(at: number, sounds: readonly Sound[], noise: number): Float32Array {
  const spectrogram = new Float32Array(COLUMNS * BINS);
  for (let column = 0; column < COLUMNS; column += 1) {
    const middle = at - (COLUMNS - column - 0.5) * COLUMN_MS;
    const level = Math.max(
      // A little up and down, as noise is.
      noise + Math.sin(middle),
      ...sounds.filter(({ from, to }) => from <= middle && middle < to).map((sound) => sound.level),
    );
    spectrogram.fill(level - 10 * Math.log10(HEARD_BINS), column * BINS, (column + 1) * BINS);
  }
  return spectrogram;
}

export function scoresOf(word: KeyWord | null, sure = 0.97): Float32Array {
  const scores = new Float32Array(CLASSES.length).fill((1 - sure) / (CLASSES.length - 1));
  if (word !== null) scores[CLASSES.indexOf(word)] = sure;
  return scores;
}

/** Half a second of a voice of usual loudness, a third of a second after the tone. */
export const SPEAKS: readonly Sound[] = [{ from: 350, to: 850, level: -30 }];
const SENTENCE: readonly Sound[] = [{ from: 500, to: 3300, level: -32 }];

export interface Room {
  readonly plan?: ReadingPlan;
  readonly noise?: number;
  /** What the person does at the ask of this number (0: the noise), at this try; undefined: what is right. */
  readonly answers?: (ask: number, tries: number) => Answer | undefined;
  readonly seed?: number;
}

/** A reading in a simulated room, to its end or for so many seconds; what was told aloud, and all steps. */
export function readIn({ plan = SHORT_PLAN, noise = -70, answers = () => undefined, seed = 1 }: Room) {
  const told: string[] = [];
  const troubles: string[] = [];
  let sounds: readonly Sound[] = [];
  let heard: KeyWord | null = null;
  let now = 1000;
  let toldAt: number | null = null;
  let reading: Reading;
  const after = ({ reading: next, tell }: Step) => {
    reading = next;
    const trouble = next.troubles.at(-1);
    if (!tell) return;
    told.push(tell.text);
    if (next.phase.kind !== "ended" && trouble) troubles.push(trouble.kind);
    toldAt = now + (tell.text === "" ? 120 : 700);
  };
  const send = (event: ReadingEvent) => after(takeEvent(reading, event));
  const drawn = chance(seed);
  const begun = beginReading(plan, () => drawn.from(0, 1), now);
  reading = begun.reading;
  after(begun);
  const until = now + 300_000;
  while (now < until && reading.phase.kind !== "read" && reading.phase.kind !== "ended") {
    now += 50;
    if (toldAt !== null && now >= toldAt) {
      toldAt = null;
      const asked = askNow(reading);
      const answer = answers(reading.at, reading.troubles.length);
      const right = asked.kind === "word" ? SPEAKS : asked.kind === "sentence" ? SENTENCE : [];
      const start = now;
      sounds = [
        ...sounds,
        ...(answer?.sounds ?? right).map((sound) => ({
          ...sound,
          from: sound.from + start,
          to: sound.to + start,
        })),
      ];
      const own = asked.kind === "word" ? asked.word : null;
      heard = answer?.heard === undefined ? own : answer.heard;
      send({ kind: "told", at: now });
    }
    send({ kind: "tick", at: now });
    if (now % HOP_MS === 0)
      send({ kind: "window", at: now, spectrogram: windowAt(now, sounds, noise), scores: scoresOf(heard) });
  }
  return { reading, told, troubles, seconds: (now - 1000) / 1000 };
}
