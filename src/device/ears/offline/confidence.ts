import type { Hypothesis } from "../../../meaning/heard.ts";
import type { Found, ScoredWord } from "./search.ts";

/** What is made of one search: the words with their confidence, and whether the utterance was for the log at all. */
export interface Judged {
  readonly hypothesis: Hypothesis;
  readonly rejected: boolean;
}

/**
 * A word's confidence is 1 / (1 + exp(-SLOPE (margin - MIDDLE))): the margin is how much better than a free loop of
 * phones the word explains its frames, in nats per frame. Measured by tests/bench/hearing.ts.
 */
const SLOPE = 1.2;
const MIDDLE = -4;

/** Below this mean margin, weighed by the words' lengths, the words were forced on something else. */
const LEAST_MEAN_MARGIN = -1.2;
/** One word this bad spoils the utterance: a wrong number is worse than being asked again. */
const LEAST_WORD_MARGIN = -8;
/** Speech outside the grammar may take up this share of the voiced frames. */
const MOST_OTHER = 0.2;

/** Pure: from scores to confidence. Silence, other speech and forced words come out rejected. */
export function judgeFound({ words, wordFrames, otherFrames }: Found): Judged {
  const heard = words.map(({ word, start, end, margin }) => ({
    word,
    start,
    end,
    confidence: wordConfidence(margin),
  }));
  const mean = meanMargin(words);
  const worst = words.reduce((least, { margin }) => Math.min(least, margin), Number.POSITIVE_INFINITY);
  const other = otherFrames / Math.max(1, wordFrames + otherFrames);
  const rejected =
    words.length === 0 || mean < LEAST_MEAN_MARGIN || worst < LEAST_WORD_MARGIN || other > MOST_OTHER;
  return {
    hypothesis: { words: heard, confidence: words.length === 0 ? 0 : wordConfidence(mean) },
    rejected,
  };
}

/** @param margin nats per frame; @returns 0 to 1 */
export function wordConfidence(margin: number): number {
  return 1 / (1 + Math.exp(-SLOPE * (margin - MIDDLE)));
}

function meanMargin(words: readonly ScoredWord[]): number {
  const seconds = words.reduce((sum, { start, end }) => sum + end - start, 0);
  const weighed = words.reduce((sum, { start, end, margin }) => sum + margin * (end - start), 0);
  return seconds === 0 ? 0 : weighed / seconds;
}
