import FFT from "fft.js";

/** The rate that the models work at, in hertz. */
export const EAR_RATE = 16_000;
/** Frames a second. */
export const FRAME_RATE = 100;
export const BANDS = 40;

const WINDOW = 400;
const HOP = EAR_RATE / FRAME_RATE;
const SIZE = 512;
/** The corners of the lowest and the highest band, in hertz. */
const LOW = 60;
const HIGH = 7800;
/** High frequencies are lifted as the models were trained with them. */
const PRE_EMPHASIS = 0.97;

/** Mel energies of a stream, frame by frame: the same numbers as grammars/en/acoustic/model.py. */
export interface Mel {
  /** Takes any number of samples (16 kHz, full scale 1); gives the frames of 40 energies that they complete. */
  frames(samples: Float32Array): Float32Array[];
  /** Forgets the samples that wait for more. */
  reset(): void;
}

export function createMel(): Mel {
  const fft = new FFT(SIZE);
  const hann = Float64Array.from(
    { length: WINDOW },
    (_, at) => 0.5 - 0.5 * Math.cos((2 * Math.PI * at) / WINDOW),
  );
  const loss = hann.reduce((sum, weight) => sum + weight * weight, 0);
  const bands = triangles();
  const windowed = new Array<number>(SIZE).fill(0);
  const spectrum = fft.createComplexArray();
  let rest = new Float32Array(0);
  /** The sample before `rest`, for the pre-emphasis. */
  let before = 0;

  const energies = (sound: Float32Array, from: number): Float32Array => {
    for (let at = 0; at < WINDOW; at++) {
      const last = from + at === 0 ? before : (sound[from + at - 1] ?? 0);
      windowed[at] = ((sound[from + at] ?? 0) - PRE_EMPHASIS * last) * (hann[at] ?? 0);
    }
    fft.realTransform(spectrum, windowed);
    return Float32Array.from(bands, ({ first, weights }) => {
      let sum = 0;
      for (let at = 0; at < weights.length; at++) {
        const re = spectrum[2 * (first + at)] ?? 0;
        const im = spectrum[2 * (first + at) + 1] ?? 0;
        sum += (weights[at] ?? 0) * (re * re + im * im);
      }
      return sum / loss;
    });
  };

  return {
    frames(samples) {
      const sound = new Float32Array(rest.length + samples.length);
      sound.set(rest);
      sound.set(samples, rest.length);
      const out: Float32Array[] = [];
      let at = 0;
      for (; at + WINDOW <= sound.length; at += HOP) out.push(energies(sound, at));
      if (at > 0) before = sound[at - 1] ?? 0;
      rest = sound.slice(at);
      return out;
    },
    reset() {
      rest = new Float32Array(0);
      before = 0;
    },
  };
}

interface Band {
  /** The first bin of the spectrum that counts, and the weight of each from there. */
  readonly first: number;
  readonly weights: Float64Array;
}

/** Triangles evenly spaced on the mel scale, 2595 log10(1 + f/700) (O'Shaughnessy, Speech Communication, 1987). */
function triangles(): Band[] {
  const mel = (hertz: number): number => 2595 * Math.log10(1 + hertz / 700);
  const corner = (index: number): number => {
    const at = mel(LOW) + ((mel(HIGH) - mel(LOW)) * index) / (BANDS + 1);
    return 700 * (10 ** (at / 2595) - 1);
  };
  return Array.from({ length: BANDS }, (_, band) => {
    const [left, middle, right] = [corner(band), corner(band + 1), corner(band + 2)];
    const weights = Array.from({ length: SIZE / 2 + 1 }, (_, bin) => {
      const hertz = (bin * EAR_RATE) / SIZE;
      const rise = (hertz - left) / Math.max(1, middle - left);
      const fall = (right - hertz) / Math.max(1, right - middle);
      return Math.max(0, Math.min(rise, fall));
    });
    const first = weights.findIndex((weight) => weight > 0);
    const last = weights.findLastIndex((weight) => weight > 0);
    return { first, weights: Float64Array.from(weights.slice(first, last + 1)) };
  });
}

/** Keeps the logarithm of an almost silent band from swinging, as a share of the utterance's mean energy. */
const FLOOR = 1e-3;

/**
 * What the phone model takes of one utterance: energies over the utterance's mean energy, as logarithms, less each
 * band's mean. Loudness and the colour of the microphone fall out.
 * @returns frames x 40, row by row
 */
export function phoneFeatures(frames: readonly Float32Array[]): Float32Array {
  const total = frames.reduce((sum, frame) => sum + frame.reduce((all, energy) => all + energy, 0), 0);
  const level = total / (frames.length * BANDS) + 1e-10;
  const out = new Float32Array(frames.length * BANDS);
  for (let band = 0; band < BANDS; band++) {
    let mean = 0;
    for (const [at, frame] of frames.entries()) {
      const value = Math.log((frame[band] ?? 0) / level + FLOOR);
      out[at * BANDS + band] = value;
      mean += value / frames.length;
    }
    for (let at = 0; at < frames.length; at++) out[at * BANDS + band] = (out[at * BANDS + band] ?? 0) - mean;
  }
  return out;
}
