import { type RoomNoise, voiceFrom } from "./levels.ts";
import { voiceShare } from "./place-word.ts";
import { again, apart, type HeardWindow, type Outcome, OVER_NOISE, TOO_LOUD, TOO_SOFT } from "./take.ts";

/** A window in which somebody speaks for this share of it is a take of ordinary speech. */
const SPEAKS = 0.4;
/** The last second is quiet: the sentence is over. */
const OVER = 0.1;
/** Between two takes, ms. */
const APART_MS = 400;
/** What is shorter than so many takes is no sentence. */
const FEWEST = 3;
/** Whoever speaks for so long reads something else, or the room has become louder. */
const LONGEST_MS = 15_000;
const HELD_BACK_OF = 4;

/** A sentence: ordinary speech, of which nothing is to be taken for a key word. */
export function hearSentence(windows: readonly HeardWindow[], since: number, room: RoomNoise): Outcome {
  const from = voiceFrom(room);
  const speech = windows.filter(({ levels }) => voiceShare(levels, from) >= SPEAKS);
  const last = windows.at(-1);
  if (!last || speech.length === 0) return { kind: "wait", begun: false };
  if (last.at - since > LONGEST_MS) return again({ kind: "noise" });
  if (voiceShare(last.levels, from) > OVER) return { kind: "wait", begun: true };
  const peak = Math.max(...speech.flatMap(({ levels }) => levels));
  if (peak >= TOO_LOUD) return again({ kind: "loud" });
  if (peak < Math.max(room.usual + OVER_NOISE, TOO_SOFT)) return again({ kind: "soft" });
  const takes = apart(speech, APART_MS);
  if (takes.length < FEWEST) return again({ kind: "short" });
  return {
    kind: "taken",
    differed: false,
    takes: takes.map(({ spectrogram }, place) => ({
      label: "_unknown_",
      spectrogram,
      heldBack: place % HELD_BACK_OF === 1,
    })),
  };
}
