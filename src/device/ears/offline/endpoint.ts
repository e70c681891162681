/** Where utterances begin and end in a stream of 10 ms frames, from the probability of a voice in each. */
export interface EndpointState {
  readonly speaking: boolean;
  /** Frames in a row towards the other state: voiced while quiet, unvoiced while speaking. */
  readonly run: number;
  /** Frames of the utterance so far, the run-up not counted. */
  readonly length: number;
  /** Voiced frames of the utterance so far. */
  readonly voiced: number;
}

/**
 * What a frame changes: an utterance begins, goes on, pauses (it may be over: time to understand it), ends, or was too
 * short to be speech.
 */
export type EndpointStep = "quiet" | "begin" | "speech" | "pause" | "end" | "drop";

export const QUIET: EndpointState = { speaking: false, run: 0, length: 0, voiced: 0 };

/** A voice begins above the upper bound and lasts until it falls below the lower. */
const BEGIN_VOICE = 0.6;
const LAST_VOICE = 0.35;
/** Frames above the upper bound that begin an utterance: a click is shorter. */
const BEGIN_FRAMES = 4;
/** Frames of quiet after which what was said is understood; answered at once where it can only be over. */
const PAUSE_FRAMES = 22;
/** Frames of quiet that end an utterance that might have gone on: longer than the breath before "point". */
const END_FRAMES = 65;
/** The shortest word ("no") has about this many voiced frames. */
const LEAST_VOICED = 8;
/** Nobody dictates this long in one breath: noise that passes for a voice is cut here. */
const MOST_FRAMES = 1500;

/** Frames to keep from before the first voiced frame: soft beginnings ("high", "flue") score low. */
export const RUN_UP_FRAMES = 30;

/** @param voice probability of a voice in the next frame, 0 to 1 */
export function endpoint(
  state: EndpointState,
  voice: number,
): { readonly state: EndpointState; readonly step: EndpointStep } {
  if (!state.speaking) {
    const run = voice >= BEGIN_VOICE ? state.run + 1 : 0;
    if (run < BEGIN_FRAMES) return { state: { ...QUIET, run }, step: "quiet" };
    return { state: { speaking: true, run: 0, length: run, voiced: run }, step: "begin" };
  }
  const voiced = voice >= LAST_VOICE;
  const next: EndpointState = {
    speaking: true,
    run: voiced ? 0 : state.run + 1,
    length: state.length + 1,
    voiced: state.voiced + (voiced ? 1 : 0),
  };
  if (next.run < END_FRAMES && next.length < MOST_FRAMES) {
    const pauses = next.run === PAUSE_FRAMES && next.voiced >= LEAST_VOICED;
    return { state: next, step: pauses ? "pause" : "speech" };
  }
  return { state: QUIET, step: next.voiced < LEAST_VOICED ? "drop" : "end" };
}
