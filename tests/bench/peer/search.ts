import { compact } from "../../../src/device/ears/offline/compact.ts";
import type { EarLanguage } from "../../../src/meaning/network.ts";
import { isPhone, PHONE_WORDS, phoneGraph, pronunciations, searchGraph } from "./grammar.ts";
import { createDecoder, type Segment, type Sphinx } from "./sphinx.ts";

/** The rate of the acoustic model, in hertz, and its frames per second. */
export const SEARCH_RATE = 16_000;
const FRAME_RATE = 100;

export interface Tuning {
  /** How strongly the grammar's own weights count against the acoustic scores. */
  readonly grammarWeight: number;
  /** Cost of one phone of other speech before the first island, nats. */
  readonly garbageCost: number;
  /** Cost of one phone in the free phone loop, nats. */
  readonly phoneCost: number;
  /** PocketSphinx's `-wip`, to the power of its `-lw` (6.5) the cost of a word: keeps short words out. */
  readonly wordInsertion: number;
}

const TUNING: Tuning = { grammarWeight: 5, garbageCost: -14, phoneCost: -3, wordInsertion: 0.01 };

/** Loudness that the voice is brought to (root mean square of its louder frames, full scale 1). */
const LEVEL = 0.1;
/** Digital silence makes the engine's logarithms trap, so a little noise is laid under: in 16-bit steps. */
const DITHER = 2;

/** One word with how well it fits: what the confidence is made of. */
export interface ScoredWord {
  readonly word: string;
  /** Seconds from the start of the sound searched. */
  readonly start: number;
  readonly end: number;
  /** Acoustic score minus that of the free phone loop over the same frames, nats per frame, seldom above 0. */
  readonly margin: number;
}

export interface Found {
  readonly words: readonly ScoredWord[];
  /** Frames that went to words, and to other speech. */
  readonly wordFrames: number;
  readonly otherFrames: number;
}

export interface Search {
  /** Searches one utterance of 16 kHz samples, full scale 1. */
  find(samples: Float32Array): Found;
}

/**
 * Two searches over the same sound: the language's network with a loop of bare phones for other speech, and the phone
 * loop alone, which says how well any speech at all could have explained each frame.
 */
export function createSearch(sphinx: Sphinx, language: EarLanguage, tuning: Tuning = TUNING): Search {
  const network = compact(language.utterance);
  const words = createDecoder(
    sphinx,
    { "-wip": String(tuning.wordInsertion) },
    [...pronunciations(network, language.lexicon), ...PHONE_WORDS],
    searchGraph(network, tuning.grammarWeight, tuning.garbageCost),
  );
  const phones = createDecoder(sphinx, {}, PHONE_WORDS, phoneGraph(tuning.phoneCost));
  return {
    find(samples) {
      const sound = prepare(samples);
      const found = words.decode(sound);
      return score(found, frameScores(phones.decode(sound)));
    },
  };
}

/** The score of each frame, spread evenly over the frames of its segment. */
function frameScores(segments: readonly Segment[]): Float64Array {
  const scores = new Float64Array(segments.at(-1)?.end ?? 0);
  for (const { start, end, score } of segments) scores.fill(score / (end - start), start, end);
  return scores;
}

function score(segments: readonly Segment[], free: Float64Array): Found {
  const words: ScoredWord[] = [];
  let otherFrames = 0;
  for (const { word, start, end, score } of segments) {
    if (word === null) continue;
    if (isPhone(word)) {
      otherFrames += end - start;
      continue;
    }
    const best = free.subarray(start, end).reduce((sum, frame) => sum + frame, 0);
    words.push({
      word,
      start: start / FRAME_RATE,
      end: end / FRAME_RATE,
      margin: (score - best) / (end - start),
    });
  }
  const wordFrames = words.reduce((sum, { start, end }) => sum + (end - start) * FRAME_RATE, 0);
  return { words, wordFrames: Math.round(wordFrames), otherFrames };
}

/** To 16 bits, at one loudness whatever the microphone's gain, with a little noise underneath. */
function prepare(samples: Float32Array): Int16Array {
  const gain = LEVEL / Math.max(loudness(samples), LEVEL / 100);
  const noise = dither();
  return Int16Array.from(samples, (sample) => {
    const value = Math.round(sample * gain * 32_767 + noise());
    return Math.max(-32_768, Math.min(32_767, value));
  });
}

/** Root mean square of the louder frames: nine tenths of the 25 ms frames are softer. */
function loudness(samples: Float32Array): number {
  const frame = SEARCH_RATE / 40;
  const levels: number[] = [];
  for (let from = 0; from + frame <= samples.length; from += frame) {
    const power = samples.subarray(from, from + frame).reduce((sum, sample) => sum + sample * sample, 0);
    levels.push(Math.sqrt(power / frame));
  }
  levels.sort((a, b) => a - b);
  return levels[Math.floor(levels.length * 0.9)] ?? 0;
}

/** The same sequence every time, so that the same sound gives the same words. */
function dither(): () => number {
  let seed = 1;
  return () => {
    seed = (Math.imul(seed, 1_664_525) + 1_013_904_223) >>> 0;
    return (seed / 2 ** 31 - 1) * DITHER;
  };
}
