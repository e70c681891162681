import type { Utterance } from "../../../meaning/heard.ts";
import type { EarLanguage } from "../../../meaning/network.ts";
import { createAcoustic } from "./acoustic.ts";
import { closes } from "./close.ts";
import { type EndpointState, endpoint, QUIET, RUN_UP_FRAMES } from "./endpoint.ts";
import { createMel, EAR_RATE, FRAME_RATE } from "./mel.ts";
import type { PhoneHead } from "./own-head.ts";
import { createSearch } from "./search.ts";
import { judge } from "./trust.ts";
import { createVoiceDetector } from "./voice.ts";
import { type Manifest, Weights } from "./weights.ts";

/** Everything that has to be loaded before; each platform loads in its own way (assets-node.ts, assets-browser.ts). */
export interface EarAssets {
  readonly manifest: Manifest;
  readonly weights: Uint8Array<ArrayBuffer>;
  /** What was learned of the person who speaks; the shipped head where it is left out. */
  readonly head?: PhoneHead;
}

/** What comes out of the chain while sound goes in. */
export type Sounded =
  | { readonly kind: "level"; readonly loudness: number; readonly voice: number }
  | { readonly kind: "utterance"; readonly utterance: Utterance; readonly over: boolean };

/** The offline chain: 16 kHz sound in, utterances out. The same in a browser's worker and in Node. */
export interface Recogniser {
  /** Takes any number of mono samples at 16 kHz, full scale 1. */
  hear(samples: Float32Array): Sounded[];
  /** Whether the app's own voice sounds in what comes next: it marks the utterance that it falls into. */
  over(sounding: boolean): void;
  /** Ends an utterance that is still open, as at the end of a file. */
  finish(): Sounded[];
  /** Drops what was heard of an open utterance. */
  reset(): void;
  destroy(): void;
}

/** Frames between two levels: five a second. */
const LEVEL_FRAMES = 20;
/** Frames of quiet kept after the last voiced one. */
const KEPT_TAIL_FRAMES = 25;
const HOP = EAR_RATE / FRAME_RATE;

/** One hop of sound with what was made of it. */
interface Frame {
  readonly energies: Float32Array;
  readonly sound: Float32Array;
}

/**
 * TensorFlow.js must have its backend set (backend.ts).
 * @param clock milliseconds, for the compute time it reports
 * @throws if the weights are incomplete or the language has words without a pronunciation
 */
export function createRecogniser(assets: EarAssets, language: EarLanguage, clock: () => number): Recogniser {
  const weights = new Weights(assets.manifest, assets.weights);
  const acoustic = createAcoustic(weights, assets.head);
  const search = createSearch(acoustic, language, weights.phones);
  const detector = createVoiceDetector(weights);
  const mel = createMel();

  let rest = new Float32Array(0);
  let state: EndpointState = QUIET;
  let frames: Frame[] = [];
  /** What was understood at a pause that may yet end the utterance. */
  let waiting: Utterance | null = null;
  let spent = 0;
  let sounding = false;
  /** Whether the app's own voice fell into the open utterance. */
  let over = false;
  let level = { frames: 0, loudness: 0, voice: 0 };

  const understand = (): { utterance: Utterance; closed: boolean } => {
    const before = clock();
    const kept = frames.slice(0, frames.length - Math.max(0, state.run - KEPT_TAIL_FRAMES));
    const found = search.find(kept.map(({ energies }) => energies));
    const judged = judge(found);
    spent += clock() - before;
    const utterance: Utterance = {
      engine: "offline",
      hypotheses: judged.hypotheses,
      rejected: judged.rejected,
      audioSeconds: kept.length / FRAME_RATE,
      computeSeconds: spent / 1000,
      sound: joined(kept.map(({ sound }) => sound)),
    };
    return { utterance, closed: closes(search.graph, language.hints, found.ways[0]) };
  };

  const hearFrame = (frame: Frame): Sounded[] => {
    const before = clock();
    const voice = detector.frame(frame.energies);
    frames.push(frame);
    over ||= sounding;
    const out: Sounded[] = measure(frame.sound, voice);
    const { step, state: next } = endpoint(state, voice);
    spent += clock() - before;
    // The frame that pauses or ends is quiet itself: `run` counts it.
    state = step === "end" || step === "drop" ? { ...state, run: state.run + 1 } : next;
    switch (step) {
      case "quiet":
        frames = frames.slice(-RUN_UP_FRAMES);
        spent = 0;
        over = sounding;
        return out;
      case "begin":
        return out;
      case "speech":
        if (next.run === 0) waiting = null;
        return out;
      case "pause": {
        const { utterance, closed } = understand();
        if (closed) {
          out.push({ kind: "utterance", utterance, over });
          restart();
        } else waiting = utterance;
        return out;
      }
      case "end":
        out.push({ kind: "utterance", utterance: waiting ?? understand().utterance, over });
        restart();
        return out;
      case "drop":
        restart();
        return out;
    }
  };

  const measure = (sound: Float32Array, voice: number): Sounded[] => {
    const loudness = sound.reduce((most, sample) => Math.max(most, Math.abs(sample)), 0);
    level = {
      frames: level.frames + 1,
      loudness: Math.max(level.loudness, Math.min(1, loudness)),
      voice: Math.max(level.voice, voice),
    };
    if (level.frames < LEVEL_FRAMES) return [];
    const heard: Sounded = { kind: "level", loudness: level.loudness, voice: level.voice };
    level = { frames: 0, loudness: 0, voice: 0 };
    return [heard];
  };

  const restart = (): void => {
    state = QUIET;
    frames = [];
    waiting = null;
    spent = 0;
    over = sounding;
  };

  return {
    hear(samples) {
      const all = joined([rest, samples]);
      const out: Sounded[] = [];
      let at = 0;
      for (; at + HOP <= all.length; at += HOP) {
        const sound = all.slice(at, at + HOP);
        for (const energies of mel.frames(sound)) out.push(...hearFrame({ energies, sound }));
      }
      rest = all.slice(at);
      return out;
    },
    over(next) {
      sounding = next;
    },
    finish() {
      const out: Sounded[] = state.speaking
        ? [{ kind: "utterance", utterance: waiting ?? understand().utterance, over }]
        : [];
      restart();
      return out;
    },
    reset() {
      rest = new Float32Array(0);
      mel.reset();
      detector.reset();
      restart();
    },
    destroy: () => acoustic.destroy(),
  };
}

function joined(parts: readonly Float32Array[]): Float32Array<ArrayBuffer> {
  const all = new Float32Array(parts.reduce((sum, part) => sum + part.length, 0));
  let at = 0;
  for (const part of parts) {
    all.set(part, at);
    at += part.length;
  }
  return all;
}
