import type { Engine, Utterance } from "../../meaning/heard.ts";

/** What an ear tells while it listens. */
export type EarEvent =
  | { readonly kind: "loading"; readonly fraction: number }
  | { readonly kind: "listening" }
  /** A few times a second: loudness 0 to 1 (full scale), probability of a voice 0 to 1 where the engine knows it. */
  | { readonly kind: "level"; readonly loudness: number; readonly voice: number | null }
  /** `over`: some of it was heard while the app's own voice sounded. */
  | { readonly kind: "utterance"; readonly utterance: Utterance; readonly over: boolean }
  | { readonly kind: "stopped" }
  /** One clear sentence: a denied or lost microphone, a model that did not load. The ear is stopped. */
  | { readonly kind: "problem"; readonly message: string };

/** The one small interface behind which every recogniser sits. */
export interface Ear {
  readonly engine: Engine;
  /** Starts listening; resolves when sound is coming in. Problems come as events, never as rejections. */
  listen(on: (event: EarEvent) => void): Promise<void>;
  /**
   * While the app's own voice sounds. An engine that can, goes on listening and marks what it hears as `over`; the others
   * drop it. Nothing heard then may become a reading.
   */
  voiceSounds(sounding: boolean): void;
  /** Stops and releases the microphone. */
  stop(): Promise<void>;
}
