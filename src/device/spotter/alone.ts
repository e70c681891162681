import { levelsBetween } from "./levels.ts";
import type { SpotterWindow } from "./spotter.ts";

/** Columns from one window to the next (`OVERLAP` in listening.ts). */
export const HOP_COLUMNS = 9;
/** The columns before a window that are looked at, and those after it: 0.84 s and 0.63 s. */
const BEFORE_WINDOWS = 4;
const AFTER_WINDOWS = 3;
/** Columns at either side of a window in which nobody speaks. */
const EDGE = 3;
/** A column is loud that is above half the way, in dB, from the window's quiet to its loudest. */
const LOUD = 0.5;
/** At most so many of the columns before or after are loud. */
const MOST_LOUD = 0.1;
/** The bins from 300 to 3,400 Hz, where speech is. */
const [FIRST_BIN, END_BIN] = [14, 158];
/** Windows that are further apart than this, ms, are of two stretches of sound. */
const GAP_MS = 1000;

/** What is around a word: whether it is a command, or one word of a talk. */
export type Around = "quiet" | "talk" | "not yet";

/** Looks whether words stand alone: a key word among others is no command. */
export interface Alone {
  /** Takes the windows in their order; whether the word in this one is all of it, with quiet at either side. */
  take(window: Pick<SpotterWindow, "spectrogram" | "at">): boolean;
  /** What is before the window that ended then. */
  before(at: number): Around;
  /** What is after it. */
  after(at: number): Around;
}

interface Seen {
  readonly at: number;
  /** Of each column, dB, smoothed. */
  readonly levels: readonly number[];
  /** From here on a column is loud. */
  readonly loud: number;
}

export function createAlone(): Alone {
  let seen: Seen[] = [];
  const around = (at: number, windows: number, columns: (levels: readonly number[]) => readonly number[]) => {
    const place = seen.findIndex((one) => one.at === at);
    const [word, other] = [seen[place], seen[place + windows]];
    if (!word) return "talk";
    if (!other) return windows < 0 ? "quiet" : "not yet";
    const levels = columns(other.levels);
    const loud = levels.filter((level) => level >= word.loud).length;
    return loud <= MOST_LOUD * levels.length ? "quiet" : "talk";
  };
  return {
    take({ spectrogram, at }) {
      if (at - (seen.at(-1)?.at ?? at) > GAP_MS) seen = [];
      const levels = levelsOf(spectrogram);
      const sorted = levels.toSorted((a, b) => a - b);
      // A click is not the loudest, nor a gap in the sound the quiet.
      const [quiet, loudest] = [sorted[6] ?? 0, sorted.at(-2) ?? 0];
      const loud = quiet + LOUD * (loudest - quiet);
      seen = [...seen, { at, levels, loud }].slice(-(BEFORE_WINDOWS + AFTER_WINDOWS + 2));
      return [...levels.slice(0, EDGE), ...levels.slice(-EDGE)].every((level) => level < loud);
    },
    before: (at) => around(at, -BEFORE_WINDOWS, (levels) => levels.slice(0, BEFORE_WINDOWS * HOP_COLUMNS)),
    after: (at) => around(at, AFTER_WINDOWS, (levels) => levels.slice(-AFTER_WINDOWS * HOP_COLUMNS)),
  };
}

/** Smoothed over three columns. */
function levelsOf(spectrogram: Float32Array): number[] {
  const raw = levelsBetween(spectrogram, FIRST_BIN, END_BIN);
  return raw.map((_, at) => {
    const near = raw.slice(Math.max(0, at - 1), at + 2);
    return near.reduce((sum, level) => sum + level, 0) / near.length;
  });
}
