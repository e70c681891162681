import { type Around, createAlone } from "./alone.ts";
import { createDetector, DETECT, type DetectOptions, type KeyWordHeard } from "./detect.ts";
import type { SpotterWindow } from "./spotter.ts";
import { CLASSES } from "./words.ts";

/** What the latest window brought. */
export interface Commanded {
  /** A word that has just been heard, with quiet at either side, and whether there was quiet before that, too. */
  readonly heard: { readonly word: KeyWordHeard; readonly begins: boolean } | null;
  /** The word that was heard 0.6 s ago and stands alone: neither before nor behind it has anybody talked. */
  readonly alone: KeyWordHeard | null;
}

export interface Commands {
  /**
   * Takes the windows in their order.
   * @param open whether the app's own voice sounds, or has just ended: then there is no quiet around a word, and none is asked for
   */
  take(window: SpotterWindow, open: boolean): Commanded;
}

/** Background, and nothing else: what a window counts for in which a word is one of several. */
const NOTHING: readonly number[] = CLASSES.map((one) => (one === "_background_noise_" ? 1 : 0));

/** Turns windows into words, and words that stand alone. Pure but for what it remembers of the last seconds. */
export function createCommands(options: DetectOptions = DETECT): Commands {
  const detector = createDetector(options);
  const around = createAlone();
  let waiting: { readonly word: KeyWordHeard; readonly open: boolean } | null = null;
  const settled = (): Around => {
    if (!waiting) return "talk";
    return waiting.open ? "quiet" : around.after(waiting.word.at);
  };
  return {
    take({ scores, spectrogram, at }, open) {
      const isWhole = around.take({ spectrogram, at });
      const word = detector.take({ scores: isWhole || open ? scores : NOTHING, at });
      const begins = word !== null && (open || around.before(word.at) === "quiet");
      if (word) waiting = begins ? { word, open } : null;
      const how = settled();
      const alone = how === "quiet" && waiting ? waiting.word : null;
      if (how !== "not yet") waiting = null;
      return { heard: word && { word, begins }, alone };
    },
  };
}
