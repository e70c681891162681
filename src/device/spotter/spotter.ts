/** About a second of sound, as the spotter took it in. */
export interface SpotterWindow {
  /** The chance of each of `CLASSES`, 0 to 1; they add up to 1. */
  readonly scores: Float32Array;
  /** `COLUMNS` rows of `BINS` levels in dB, the newest row last; dB of full scale, as `AnalyserNode` gives them. */
  readonly spectrogram: Float32Array;
  /** When it ended, milliseconds of a clock that nobody can set. */
  readonly at: number;
}

export type SpotterEvent =
  | { readonly kind: "listening" }
  /** About five a second, each overlapping the one before. */
  | ({ readonly kind: "window" } & SpotterWindow)
  | { readonly kind: "stopped" }
  /** One clear sentence: a denied or lost microphone, a model that did not load. The spotter is stopped. */
  | { readonly kind: "problem"; readonly message: string };

/** Always listens for the key words, beside the phrase recogniser. */
export interface Spotter {
  /** Starts listening; resolves when sound is coming in. Problems come as events, never as rejections. */
  listen(on: (event: SpotterEvent) => void): Promise<void>;
  /** Stops and releases its microphone. */
  stop(): Promise<void>;
}
