/** The sample rate of sound that ears hand over, in hertz. */
export const CLIP_RATE = 16_000;

/** The sound of one utterance as it is kept: a whole file of its kind. */
export interface Clip {
  /** "audio/ogg; codecs=opus" or "audio/wav". */
  readonly type: string;
  readonly data: ArrayBuffer;
}
