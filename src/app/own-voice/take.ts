import type { Class, KeyWord } from "../../device/spotter/words.ts";

/** A second of sound with what was said in it, for as long as the teaching lasts. */
export interface Take {
  readonly label: Class;
  /** As the spotter took it in (`SpotterWindow`). */
  readonly spectrogram: Float32Array;
  /** Not learned from: it tells how much better the words are heard. */
  readonly heldBack: boolean;
}

/** A window since the person was asked. */
export interface HeardWindow {
  /** When it began and ended, ms of the spotter's clock. */
  readonly from: number;
  readonly at: number;
  readonly spectrogram: Float32Array;
  /** The chance of each of `CLASSES`. */
  readonly scores: Float32Array;
  /** How loud each of its columns is, dB (`levelsOf`). */
  readonly levels: readonly number[];
}

/** Why a take is not taken. */
export type Trouble =
  | { readonly kind: "silence" }
  | { readonly kind: "loud" }
  | { readonly kind: "soft" }
  /** It began before the app had done asking. */
  | { readonly kind: "early" }
  /** More than was asked for. */
  | { readonly kind: "more" }
  /** Less than the whole sentence. */
  | { readonly kind: "short" }
  /** The room is louder than it was at the beginning. */
  | { readonly kind: "noise" }
  | { readonly kind: "wrong"; readonly heard: KeyWord }
  /** Somebody spoke where the room was to be heard. */
  | { readonly kind: "spoke" };

/** What comes of the windows since the person was asked. */
export type Outcome =
  /** `begun`: something was said. */
  | { readonly kind: "wait"; readonly begun: boolean }
  /** `differed`: the base model heard another word. */
  | { readonly kind: "taken"; readonly takes: readonly Take[]; readonly differed: boolean }
  | { readonly kind: "again"; readonly trouble: Trouble };

export const again = (trouble: Trouble): Outcome => ({ kind: "again", trouble });

/**
 * From here on sound is clipped, dB (`levelsOf`). Measured on 240 digits of four people, made louder until they were cut off: with one
 * sample in a thousand cut off they come to -18 dB, with one in a hundred to -15.
 */
export const TOO_LOUD = -16.5;
/** So far above the room's usual noise a take has to come, dB. */
export const OVER_NOISE = 12;
/** A take is never softer than this, dB: what is there then is mostly the microphone's own noise. */
export const TOO_SOFT = -55;

/** The windows of which hardly any sound is in two of them, the first and then on. */
export function apart<W extends { readonly at: number }>(windows: readonly W[], ms: number): readonly W[] {
  const chosen: W[] = [];
  for (const window of windows) {
    const before = chosen.at(-1);
    if (!before || window.at - before.at >= ms) chosen.push(window);
  }
  return chosen;
}
