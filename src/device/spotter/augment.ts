import type { Take } from "./take.ts";
import { BINS, COLUMNS } from "./words.ts";

/** How few takes are made into many: said sooner or later in the window, and with noise beside them. */
export interface Augmentation {
  /** Copies of each take that are only shifted. */
  readonly shifted: number;
  /** Copies of each take that are shifted and have noise mixed in. */
  readonly noisy: number;
  /** How far a copy is shifted at most, in columns of 23 ms, either way. */
  readonly shiftColumns: number;
  /** Speech over noise, dB, from and to. */
  readonly speechOverNoise: readonly [number, number];
}

/** A number from 0 to 1, below 1. */
export type Chance = () => number;

/** The takes themselves, and the copies of those that are words. */
export function augmented(takes: readonly Take[], how: Augmentation, chance: Chance): Take[] {
  const room = takes.filter(({ label }) => label === "_background_noise_");
  return takes.flatMap((take) => {
    if (take.label === "_background_noise_") return [take, ...coloured(take, how, chance)];
    const shift = () =>
      shifted(take.spectrogram, between(chance, -how.shiftColumns, how.shiftColumns), chance);
    const copies = [
      ...Array.from({ length: how.shifted }, shift),
      ...Array.from({ length: how.noisy }, () =>
        mixed(shift(), noise(room, chance), decibels(chance, how.speechOverNoise)),
      ),
    ];
    return [take, ...copies.map((spectrogram) => ({ label: take.label, spectrogram }))];
  });
}

/** Noise beside the room's own, as much as a word has copies: what hums and hisses is no word wherever it stands. */
function coloured(take: Take, { shifted, noisy }: Augmentation, chance: Chance): Take[] {
  return Array.from({ length: shifted + noisy }, () => ({
    label: take.label,
    spectrogram: mixed(take.spectrogram, hiss(chance), decibels(chance, [-10, 10])),
  }));
}

/** The room's own noise as often as made noise, where there is any of it. */
function noise(room: readonly Take[], chance: Chance): Float32Array {
  const own = room[Math.floor(chance() * room.length)];
  if (!own || chance() < 0.5) return hiss(chance);
  return shifted(own.spectrogram, between(chance, 0, COLUMNS - 1), chance);
}

/**
 * Noise whose power falls by 0 to 6 dB an octave (white, pink, brown and between); a bin's power is spread as that of Gaussian noise
 * (exponentially).
 */
function hiss(chance: Chance): Float32Array {
  const slope = 2 * chance();
  return Float32Array.from({ length: COLUMNS * BINS }, (_, at) => {
    const power = -Math.log(1 - chance()) * ((at % BINS) + 1) ** -slope;
    return 10 * Math.log10(power + 1e-12);
  });
}

/**
 * A spectrogram moved by columns, later where above zero. What comes in at the side is taken by chance from its own quietest columns.
 */
export function shifted(spectrogram: Float32Array, by: number, chance: Chance): Float32Array {
  const out = new Float32Array(COLUMNS * BINS);
  const quiet = quietColumns(spectrogram);
  for (let column = 0; column < COLUMNS; column++) {
    const inside = column - by >= 0 && column - by < COLUMNS;
    const from = inside ? column - by : (quiet[Math.floor(chance() * quiet.length)] ?? 0);
    out.set(spectrogram.subarray(from * BINS, (from + 1) * BINS), column * BINS);
  }
  return out;
}

/** Two sounds at once: their powers add up. The second is made so loud that the first is over it by so many dB. */
export function mixed(speech: Float32Array, noise: Float32Array, speechOverNoise: number): Float32Array {
  const gain = loudness(speech) / loudness(noise) / 10 ** (speechOverNoise / 10);
  return speech.map(
    (level, at) => 10 * Math.log10(10 ** (level / 10) + gain * 10 ** ((noise[at] ?? 0) / 10)),
  );
}

/** The mean power of the louder half of the columns: of speech, the part that is spoken. */
function loudness(spectrogram: Float32Array): number {
  const powers = columnPowers(spectrogram).sort((a, b) => b - a);
  const half = powers.slice(0, Math.ceil(powers.length / 2));
  return half.reduce((sum, power) => sum + power, 0) / half.length;
}

/** A fifth of the columns. */
function quietColumns(spectrogram: Float32Array): number[] {
  const powers = columnPowers(spectrogram);
  return [...powers.keys()]
    .sort((a, b) => (powers[a] ?? 0) - (powers[b] ?? 0))
    .slice(0, Math.ceil(powers.length / 5));
}

function columnPowers(spectrogram: Float32Array): number[] {
  return Array.from({ length: COLUMNS }, (_, column) =>
    spectrogram
      .subarray(column * BINS, (column + 1) * BINS)
      .reduce((sum, level) => sum + 10 ** (level / 10), 0),
  );
}

/** A whole number, both ends possible. */
function between(chance: Chance, from: number, to: number): number {
  return from + Math.floor(chance() * (to - from + 1));
}

function decibels(chance: Chance, [from, to]: readonly [number, number]): number {
  return from + chance() * (to - from);
}

/** Chance that is the same for the same seed (mulberry32, public domain): what was taught can be taught again. */
export function seeded(seed: number): Chance {
  let state = seed >>> 0;
  return () => {
    state = (state + 0x6d2b79f5) >>> 0;
    let mixed = Math.imul(state ^ (state >>> 15), state | 1);
    mixed ^= mixed + Math.imul(mixed ^ (mixed >>> 7), mixed | 61);
    return ((mixed ^ (mixed >>> 14)) >>> 0) / 2 ** 32;
  };
}
