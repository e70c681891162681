import type { Spotter, SpotterEvent } from "../../src/device/spotter/spotter.ts";
import { BINS, CLASSES, COLUMNS, type KeyWord } from "../../src/device/spotter/words.ts";

/** A quiet room at -80 dB, and a word of a third of a second in the middle of it. */
const QUIET = new Float32Array(COLUMNS * BINS).fill(-80);
const WORD = QUIET.map((level, at) => (Math.abs(at / BINS - COLUMNS / 2) < 7 ? -30 : level));

/** Between two windows, ms. */
export const HOP_MS = 200;

/** A spotter that hears what the test makes it hear, and tells whether it listens. Windows come at the test's own time. */
export function puppetSpotter(clock: { at: number }) {
  let emit: ((event: SpotterEvent) => void) | null = null;
  let starts = 0;
  const spotter: Spotter = {
    async listen(on) {
      starts += 1;
      emit = on;
      on({ kind: "listening" });
    },
    async stop() {
      const before = emit;
      emit = null;
      // A microphone is let go a moment later.
      await Promise.resolve();
      before?.({ kind: "stopped" });
    },
  };
  const window = (word: KeyWord | null, chance = 0.99, sound = word === null ? QUIET : WORD) => {
    clock.at += HOP_MS;
    const scores = new Float32Array(CLASSES.length).fill((1 - chance) / (CLASSES.length - 1));
    scores[word === null ? 0 : CLASSES.indexOf(word)] = chance;
    emit?.({ kind: "window", scores, spectrogram: sound, at: clock.at });
  };
  return {
    spotter,
    listens: () => emit !== null,
    /** How often it was started. */
    starts: () => starts,
    /** Windows with this word in them, then some without: nobody talks on, unless another word follows at once. */
    hears(word: KeyWord, windows = 3, behind = 4) {
      for (let n = 0; n < windows; n++) window(word);
      for (let n = 0; n < behind; n++) window(null);
    },
    /** So many windows in which somebody says something else. */
    talk(windows: number) {
      for (let n = 0; n < windows; n++) window(null, 0.99, WORD);
    },
    /** So many seconds in which no key word is heard. */
    silence(seconds: number) {
      for (let n = 0; n < (1000 * seconds) / HOP_MS; n++) window(null);
    },
    window,
    fails: (message: string) => {
      const before = emit;
      emit = null;
      before?.({ kind: "problem", message });
    },
  };
}
