import type { Hypothesis } from "../../../src/meaning/heard.ts";
import type { Found, ScoredWord } from "./search.ts";

/** What is made of one search: the words with their confidence, and whether the utterance was for the log at all. */
export interface Judged {
  readonly hypothesis: Hypothesis;
  readonly rejected: boolean;
}

/**
 * Confidence is logistic in the margin: how much better than a free loop of bare phones the words explain their
 * frames, in nats per frame. One word's margin scatters, the mean over an utterance hardly does: phrases for the log
 * lie mostly above -1, sentences forced into the grammar mostly below -1.5.
 *
 * Measured with `npx tsx tests/bench/hearing.ts 60`: of 72 phrases in four synthetic voices 69.4 % right, 18.1 %
 * rejected, 12.5 % wrong and kept ("point" as "line" or "niner", mostly one voice); of 60 sentences of adults that are
 * not for the log 98.3 % rejected; of 20 strings of digits spliced from 8 kHz recordings all rejected, because this
 * acoustic model hears them wrong; with low noise at 10 dB 29.2 % right, 54.2 % rejected; at 5 dB 16.7 % and 79.2 %.
 */
const WORD = { slope: 1.2, middle: -4 };
/** The middle is where an utterance is rejected: accepted words have at least 0.5. */
const UTTERANCE = { slope: 2.5, middle: -1.2 };

/**
 * A word after the first that fits this badly (nats per frame), over so long (nats in all) that chance does not excuse
 * it, was put in: "nine point two two" for "nine point two". It spoils the utterance, because a wrong number is worse
 * than being asked again. The first word is spared: a soft beginning fits as badly when it is right.
 */
const PUT_IN = { margin: -4.5, deficit: -50 };
const FRAME_RATE = 100;

/** Speech outside the grammar may take up this share of the voiced frames. */
const MOST_OTHER = 0.2;

/** Pure: from scores to confidence. Silence, other speech and forced words come out rejected. */
export function judgeFound({ words, wordFrames, otherFrames }: Found): Judged {
  const heard = words.map(({ word, start, end, margin }) => ({
    word,
    start,
    end,
    confidence: logistic(margin, WORD),
  }));
  const mean = meanMargin(words);
  const other = otherFrames / Math.max(1, wordFrames + otherFrames);
  const rejected =
    words.length === 0 || mean < UTTERANCE.middle || words.slice(1).some(wasPutIn) || other > MOST_OTHER;
  return {
    hypothesis: { words: heard, confidence: words.length === 0 ? 0 : logistic(mean, UTTERANCE) },
    rejected,
  };
}

function wasPutIn({ start, end, margin }: ScoredWord): boolean {
  return margin < PUT_IN.margin && margin * (end - start) * FRAME_RATE < PUT_IN.deficit;
}

/** 0 to 1. */
function logistic(margin: number, { slope, middle }: typeof WORD): number {
  return 1 / (1 + Math.exp(-slope * (margin - middle)));
}

function meanMargin(words: readonly ScoredWord[]): number {
  const seconds = words.reduce((sum, { start, end }) => sum + end - start, 0);
  const weighed = words.reduce((sum, { start, end, margin }) => sum + margin * (end - start), 0);
  return seconds === 0 ? 0 : weighed / seconds;
}
