import type { HeardWord, Hypothesis } from "../../../meaning/heard.ts";
import type { Searched } from "./search.ts";
import type { Ranked, Step } from "./trail.ts";

/** What is made of one search: the ways with their confidence, and whether the utterance was for the log at all. */
export interface Judged {
  readonly hypotheses: readonly Hypothesis[];
  readonly rejected: boolean;
}

/** What speaks for and against the best way. Nats, unless said otherwise. */
export interface Evidence {
  /** How much worse than free speech the words, and the pauses from the first of them on, explain the sound, per phone. */
  readonly fit: number;
  /** The same of the worst word or pause. */
  readonly worst: number;
  /** Share of the phones in the sound that went to no word, 0 to 1. */
  readonly other: number;
  /** How unsure the model was between phones: mean entropy of the steps that are no blank. */
  readonly doubt: number;
  readonly phones: number;
}

export function evidence(found: Searched): Evidence | null {
  const [best] = found.ways;
  if (!best || best.steps.length === 0) return null;
  const fits = best.steps.map((step) => fitOf(step, found));
  const phones = fits.reduce((sum, { phones }) => sum + phones, 0);
  const gaps = best.steps.map((step, at) => passedOver(step.end, best.steps[at + 1]?.start, found));
  const lost = fits.reduce((sum, { lost }) => sum + lost, 0) + gaps.reduce((sum, gap) => sum + gap, 0);
  const begun = found.begins.reduce((sum, one) => sum + one, 0);
  const first = best.steps[0]?.start ?? 0;
  const last = best.steps.at(-1)?.end ?? 0;
  const inside = found.begins.subarray(first, last).reduce((sum, one) => sum + one, 0);
  return {
    fit: lost / phones,
    worst: Math.min(...fits.map(({ lost, phones }) => lost / phones), ...gaps),
    other: begun === 0 ? 0 : 1 - inside / begun,
    doubt: doubt(found),
    phones,
  };
}

function fitOf(step: Step, { free }: Searched): { lost: number; phones: number } {
  const phones = Math.max(1, step.phones);
  return { lost: step.heard - ((free[step.end] ?? 0) - (free[step.start] ?? 0)), phones };
}

/** What was heard between two words, or after the last, and taken for a pause. */
function passedOver(from: number, to: number | undefined, { free, chances }: Searched): number {
  const { steps, symbols, logs } = chances;
  const end = to ?? steps;
  let pause = 0;
  for (let step = from; step < end; step++) pause += logs[step * symbols + symbols - 1] ?? 0;
  return pause - ((free[end] ?? 0) - (free[from] ?? 0));
}

function doubt({ chances: { steps, symbols, logs } }: Searched): number {
  let sum = 0;
  let count = 0;
  for (let step = 0; step < steps; step++) {
    const row = step * symbols;
    if ((logs[row + symbols - 1] ?? 0) > Math.log(0.7)) continue;
    count += 1;
    for (let at = row; at < row + symbols; at++) sum -= Math.exp(logs[at] ?? 0) * (logs[at] ?? 0);
  }
  return count === 0 ? 0 : sum / count;
}

/**
 * Logistic in the evidence, and how much of what may have been said a way stands for (a softmax of the scores, cooled).
 * Fitted on 411 phrases in quiet, at 10 and at 5 dB of the benchmark's noise and on 260 recordings of talk that is not
 * for the log; grammars/en/acoustic/README.md says in which voices. Of phrases given 0.9 to 0.95, 92 % were right;
 * 0.7 to 0.8, 77 %; 0.5 to 0.7, 57 %; above 0.99, all of 779.
 */
const TRUST = { base: 6.42, fit: 2.08, worst: 0.63, other: -3.16, doubt: -1.63, short: -0.46, cooling: 0.53 };
/** What fits worse than this counts as this, nats a phone: beyond it nothing more is learnt. */
const WORST_FIT = -6;
const WORST_WORD = -10;
/** Below this confidence nothing was said for the log: of 520 recordings of talk 5 came above. */
const HEARD = 0.5;
/** A word as short as "yes" or "no" hides in any talk: it needs more. */
const SHORT = { phones: 3, heard: 0.85 };
/** Nor where more of the phones than this went to other speech. */
const MOST_OTHER = 0.5;

/** Pure: from scores to confidence. Silence, other speech and forced words come out rejected. */
export function judge(found: Searched): Judged {
  const seen = evidence(found);
  if (!seen) return { hypotheses: [], rejected: true };
  const trust = logistic(
    TRUST.base +
      TRUST.fit * Math.max(WORST_FIT, seen.fit) +
      TRUST.worst * Math.max(WORST_WORD, seen.worst) +
      TRUST.other * seen.other +
      TRUST.doubt * seen.doubt +
      TRUST.short / seen.phones,
  );
  const top = found.ways[0]?.score ?? 0;
  const weights = found.ways.map(({ score }) => Math.exp(TRUST.cooling * (score - top)));
  const all = weights.reduce((sum, weight) => sum + weight, 0);
  const hypotheses = found.ways.map((way, at) => hypothesis(way, found, (trust * (weights[at] ?? 0)) / all));
  const least = seen.phones <= SHORT.phones ? SHORT.heard : HEARD;
  return { hypotheses, rejected: trust < least || seen.other > MOST_OTHER };
}

function logistic(x: number): number {
  return 1 / (1 + Math.exp(-x));
}

/** Seconds from a 20 ms step. */
const STEP = 0.02;

function hypothesis(way: Ranked, found: Searched, confidence: number): Hypothesis {
  const words = way.steps.map((step): HeardWord => {
    const { lost, phones } = fitOf(step, found);
    return {
      word: step.word,
      start: step.start * STEP,
      end: step.end * STEP,
      confidence: Math.exp(Math.max(-5, lost / phones)),
    };
  });
  return { words, confidence };
}
