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
  /** How much worse than free speech the words explain their sound, per phone; at most about 0. */
  readonly fit: number;
  /** The same of the worst word. */
  readonly worst: number;
  /** Lead over the best rival. */
  readonly lead: number;
  /** Share of the phones in the sound that went to no word, 0 to 1. */
  readonly other: number;
  /** How unsure the model was between phones: mean entropy of the steps that are no blank. */
  readonly doubt: number;
  readonly phones: number;
}

export function evidence(found: Searched): Evidence | null {
  const [best, rival] = found.ways;
  if (!best || best.steps.length === 0) return null;
  const fits = best.steps.map((step) => fitOf(step, found));
  const phones = fits.reduce((sum, { phones }) => sum + phones, 0);
  const lost = fits.reduce((sum, { lost }) => sum + lost, 0);
  const begun = found.begins.reduce((sum, one) => sum + one, 0);
  const first = best.steps[0]?.start ?? 0;
  const last = best.steps.at(-1)?.end ?? 0;
  const inside = found.begins.subarray(first, last).reduce((sum, one) => sum + one, 0);
  return {
    fit: lost / phones,
    worst: Math.min(...fits.map(({ lost, phones }) => lost / phones)),
    lead: best.score - (rival?.score ?? best.score - 20),
    other: begun === 0 ? 0 : 1 - inside / begun,
    doubt: doubt(found),
    phones,
  };
}

function fitOf(step: Step, { free }: Searched): { lost: number; phones: number } {
  const phones = Math.max(1, step.phones);
  return { lost: step.heard - ((free[step.end] ?? 0) - (free[step.start] ?? 0)), phones };
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

export function judge(found: Searched): Judged {
  const seen = evidence(found);
  if (!seen) return { hypotheses: [], rejected: true };
  const confidence = 1 / (1 + Math.exp(-(3 + seen.fit + seen.lead)));
  return { hypotheses: found.ways.map((way) => hypothesis(way, found, confidence)), rejected: false };
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
