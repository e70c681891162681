import { CLASSES, type KeyWord } from "../../device/spotter/words.ts";
import { type RoomNoise, voiceFrom } from "./levels.ts";
import { type Placed, placeWord } from "./place-word.ts";
import { again, type HeardWindow, type Outcome, OVER_NOISE, TOO_LOUD, TOO_SOFT } from "./take.ts";

/**
 * From here on the base model is sure that another word was said. Measured on 120 digits of four people, some of whom it was trained on:
 * no right word was taken for another one, and of wrong ones 100 were noticed.
 */
const SURE = 0.9;
/** Above this it holds the word that was asked for to be possible after all. */
const POSSIBLE = 0.05;

interface AskedWord {
  readonly word: KeyWord;
  readonly heldBack: boolean;
}

/**
 * One word, once: of the windows that overlap, the one in which it lies whole and nearest to the middle. `mayDiffer`: taken even where
 * the base model hears another word (but "stop", which ends the reading): it is how this person says it.
 */
export function hearWord(
  windows: readonly HeardWindow[],
  { word, heldBack }: AskedWord,
  room: RoomNoise,
  mayDiffer: boolean,
): Outcome {
  const from = voiceFrom(room);
  const placed = windows.map((window) => ({ window, where: placeWord(window.levels, from) }));
  const last = placed.at(-1)?.where;
  if (!last) return { kind: "wait", begun: false };
  const whole = placed.flatMap(({ window, where }) =>
    where.kind === "whole" ? [{ window, past: where.past, peak: where.peak }] : [],
  );
  const [best] = whole.toSorted((a, b) => Math.abs(a.past) - Math.abs(b.past));
  if (!best) return notWhole(placed, from);
  if (last.kind === "whole" && last.past < 0) return { kind: "wait", begun: true };
  if (last.kind === "more") return again({ kind: "more" });
  if (best.peak >= TOO_LOUD) return again({ kind: "loud" });
  if (best.peak < Math.max(room.usual + OVER_NOISE, TOO_SOFT)) return again({ kind: "soft" });
  const other = otherWord(best.window.scores, word);
  if (other !== null && (!mayDiffer || other === "stop")) return again({ kind: "wrong", heard: other });
  const takes = [{ label: word, spectrogram: best.window.spectrogram, heldBack }];
  return { kind: "taken", takes, differed: other !== null };
}

/** The word that the base model is sure of; null where that is the one that was asked for, or it is not sure. */
function otherWord(scores: Float32Array, asked: KeyWord): KeyWord | null {
  if ((scores[CLASSES.indexOf(asked)] ?? 0) > POSSIBLE) return null;
  const heard = CLASSES[scores.findIndex((score) => score >= SURE)];
  return heard === undefined || heard === "_background_noise_" || heard === "_unknown_" ? null : heard;
}

function notWhole(
  placed: readonly { readonly window: HeardWindow; readonly where: Placed }[],
  from: number,
): Outcome {
  const [first] = placed;
  const last = placed.at(-1);
  switch (last?.where.kind) {
    case "cut":
      return again({ kind: first?.where.kind === "cut" ? "early" : "more" });
    case "more":
      return again({ kind: Math.min(...last.window.levels) >= from ? "noise" : "more" });
    case "coming":
      return { kind: "wait", begun: true };
    default:
      return { kind: "wait", begun: false };
  }
}
