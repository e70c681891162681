/** What goes into the phone model's head: channels of its last block. */
export const CHANNELS = 400;
/** What comes out: the phones and the blank. */
export const SYMBOLS = 40;

/** The last layer of the phone model: `CHANNELS` x `SYMBOLS` weights, row by row, then a bias for each symbol. */
export interface PhoneHead {
  readonly kernel: Float32Array;
  readonly bias: Float32Array;
}

/** Fewer confirmed phrases than this are not learned from. */
export const FEWEST_PHRASES = 30;
/** Of more than this the last ones: of about four minutes of sound, with its noisy copies, 70 MB are in memory. */
export const MOST_PHRASES = 60;
