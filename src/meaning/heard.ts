import { z } from "zod";

/** Which ear it came in by. */
export const Engine = z.enum(["typed", "platform", "offline", "key-words"]);
export type Engine = z.infer<typeof Engine>;

/** One recognised word. Times in seconds from the start of the utterance's audio; confidence 0 to 1. */
export interface HeardWord {
  readonly word: string;
  readonly confidence: number;
  readonly start: number;
  readonly end: number;
}

/** One way to hear an utterance. */
export interface Hypothesis {
  readonly words: readonly HeardWord[];
  /** 0 to 1, over the whole utterance. */
  readonly confidence: number;
}

/** What a recogniser reports at the end of an utterance, best hypothesis first; `rejected` when it was not speech for the log. */
export interface Utterance {
  readonly engine: Engine;
  readonly hypotheses: readonly Hypothesis[];
  readonly rejected: boolean;
  readonly audioSeconds: number;
  readonly computeSeconds: number;
  /** What was heard: mono samples at 16 kHz, full scale 1; null where the engine gives none. */
  readonly sound: Float32Array | null;
}

/** As many other ways to hear a phrase are kept. */
export const MOST_RIVALS = 5;

/** Another way to hear a phrase, with another meaning; confidence 0 to 1, of all ways to hear that meaning. */
export const Rival = z.strictObject({ text: z.string(), confidence: z.number().min(0).max(1) });
export type Rival = z.infer<typeof Rival>;

/** A phrase as the parser takes it: words, which ear, how sure; and its sound, which the parser does not look at. */
export interface Phrase {
  readonly text: string;
  readonly engine: Engine;
  readonly confidence: number;
  /** Of each word of `text`; left out where all are as sure as the phrase. */
  readonly confidences?: readonly number[];
  /** Read back to the person and said to be right: the words are not asked about for how they were heard, whatever the confidence. */
  readonly confirmed?: true;
  /** At most `MOST_RIVALS`, likeliest first; left out where there are none. */
  readonly rivals?: readonly Rival[];
  /** As in Utterance; null for what was typed. */
  readonly sound: Float32Array | null;
}
