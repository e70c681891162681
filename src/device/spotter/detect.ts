import { CLASSES, type KeyWord } from "./words.ts";

/** How sure the spotter has to be before a word is told. */
export interface DetectOptions {
  /** The least mean chance, 0 to 1, over the windows. */
  readonly threshold: number;
  /** Over how many of the latest windows the chances are averaged: one passing resemblance is no word. */
  readonly windows: number;
  /** How long after a word was told the same word is not told again, milliseconds: it is still in the windows that follow. */
  readonly refractoryMs: number;
}

/** Chosen on the benchmark (tests/bench/README.md): lower lets talk through, higher passes over words. */
export const DETECT: DetectOptions = { threshold: 0.6, windows: 2, refractoryMs: 1000 };

/** A key word that was heard. */
export interface KeyWordHeard {
  readonly word: KeyWord;
  /** The mean chance it was told with, 0 to 1. */
  readonly chance: number;
  /** When the window ended that it was told with, in milliseconds of the windows' clock. */
  readonly at: number;
}

/** What of a window is looked at. */
export interface Scored {
  /** The chance of each of `CLASSES`. */
  readonly scores: ArrayLike<number>;
  readonly at: number;
}

export interface Detector {
  /** Takes the windows in their order; gives the word that one of them completes. */
  take(window: Scored): KeyWordHeard | null;
  /** Forgets what was heard, as after a pause in listening. */
  reset(): void;
}

/** Windows that are further apart than this, in milliseconds, belong to two stretches of sound. */
const GAP_MS = 1000;

/**
 * Turns windows, which overlap, into words, each told once: where the mean chance of a word rises over the threshold and is the highest.
 * The same word said again is told again when its mean has fallen below half the threshold in between, and the refractory time is over.
 */
export function createDetector(options: DetectOptions = DETECT): Detector {
  let latest: Scored[] = [];
  let told: KeyWordHeard | null = null;
  /** Whether the word that was told has faded since. */
  let faded = false;

  const forget = (): void => {
    latest = [];
    told = null;
  };

  return {
    take(window) {
      if (window.at - (latest.at(-1)?.at ?? window.at) > GAP_MS) forget();
      latest = [...latest, window].slice(-options.windows);
      if (latest.length < options.windows) return null;
      const means = CLASSES.map(
        (_, at) => latest.reduce((sum, { scores }) => sum + (scores[at] ?? 0), 0) / latest.length,
      );
      faded ||= told !== null && (means[CLASSES.indexOf(told.word)] ?? 0) < options.threshold / 2;
      if (told && faded && window.at - told.at >= options.refractoryMs) told = null;

      const chance = Math.max(...means);
      const word = CLASSES[means.indexOf(chance)];
      if (chance < options.threshold || !isKeyWord(word) || word === told?.word) return null;
      faded = false;
      told = { word, chance, at: window.at };
      return told;
    },
    reset: forget,
  };
}

function isKeyWord(word: (typeof CLASSES)[number] | undefined): word is KeyWord {
  return word !== undefined && word !== "_background_noise_" && word !== "_unknown_";
}
