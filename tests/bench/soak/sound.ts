import { speak } from "../../support/speech/speak.ts";
import { NOISES, noise, type Random } from "../hearing/noise.ts";
import { PHRASES, TALK } from "../hearing/phrases.ts";

export const RATE = 16_000;
/** Samples of a block: half a second. */
export const BLOCK = RATE / 2;

/** Loudness of the noise, and seconds of it before it repeats. */
const LOUDNESS = 0.02;
const LOOP = 20;
/** Seconds in one room. */
const ROOM = 300;
/** Seconds between utterances: the least, and so many more by chance. */
const LEAST_GAP = 5;
const MORE_GAP = 50;
/** One in so many is talk that is not for the log. */
const TALK_EVERY = 5;
/** Phrases of numbers drawn by chance beside the fixed ones: the parser remembers what it has read. */
const DRAWN = 160;

const DIGITS = "zero one two three four five six seven eight nine".split(" ");

export interface Speech {
  readonly phrases: readonly Float32Array[];
  readonly talk: readonly Float32Array[];
}

/** Everything that is said on the day, spoken once by a synthetic voice. */
export async function speech(random: Random): Promise<Speech> {
  const drawn = Array.from({ length: DRAWN }, () => drawnPhrase(random));
  const phrases: Float32Array[] = [];
  for (const text of [...PHRASES, ...drawn]) phrases.push((await speak(text, "rms")).samples);
  const talk: Float32Array[] = [];
  for (const text of TALK) talk.push((await speak(text, "rms")).samples);
  return { phrases, talk };
}

function drawnPhrase(random: Random): string {
  const digit = () => DIGITS[Math.floor(random() * 10)] ?? "one";
  const whole = ["seven", "eight", "nine", "ten"][Math.floor(random() * 4)] ?? "nine";
  const firing = random() < 0.5 ? "high" : "low";
  const co = `${["twenty", "forty", "seventy"][Math.floor(random() * 3)]} ${DIGITS[1 + Math.floor(random() * 9)]}`;
  return `${firing} fire co2 ${whole} point ${digit()} co ${co}`;
}

/**
 * A day's sound in blocks, without end: rooms of noise, of quiet and of nothing at all, five minutes each, and something said
 * every half minute or so.
 */
export function* daySound({ phrases, talk }: Speech, random: Random): Generator<Float32Array> {
  const rooms: Float32Array[] = [
    ...NOISES.map((kind) => loop(noise(kind, LOOP * RATE, RATE, random, talk.slice(0, 6)))),
    // A quiet house, and a microphone that was muted.
    Float32Array.from({ length: LOOP * RATE }, () => (random() - 0.5) * 0.002),
    new Float32Array(LOOP * RATE),
  ];
  let wait = 2;
  let said: Float32Array = new Float32Array(0);
  let place = 0;
  for (let block = 0; ; block += 1) {
    const room = rooms[Math.floor((block * BLOCK) / RATE / ROOM) % rooms.length] ?? new Float32Array(BLOCK);
    const from = (block * BLOCK) % room.length;
    const out = room.slice(from, from + BLOCK);
    if (place >= said.length && wait <= 0) {
      const of = random() * TALK_EVERY < 1 ? talk : phrases;
      said = of[Math.floor(random() * of.length)] ?? new Float32Array(0);
      place = 0;
      wait = LEAST_GAP + MORE_GAP * random();
    }
    if (place < said.length) {
      const now = said.subarray(place, place + BLOCK);
      for (let at = 0; at < now.length; at += 1) out[at] = (out[at] ?? 0) + (now[at] ?? 0);
      place += BLOCK;
    } else wait -= BLOCK / RATE;
    yield out;
  }
}

function loop(samples: Float32Array): Float32Array {
  const rms = Math.sqrt(samples.reduce((sum, each) => sum + each * each, 0) / samples.length);
  return samples.map((each) => (each * LOUDNESS) / rms);
}
