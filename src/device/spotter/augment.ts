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

/** A spectrogram as powers, full scale 1, in which sounds add up; logarithms are taken once, at the end. */
interface Powers {
  readonly bins: Float32Array;
  /** A fifth of the columns: those with the least power. */
  readonly quiet: readonly number[];
}

interface Known {
  readonly take: Take;
  readonly powers: Powers;
}

/** The takes themselves, and the copies that are made of them. */
export function augmented(takes: readonly Take[], how: Augmentation, chance: Chance): Take[] {
  const known = takes.map((take) => ({ take, powers: powersOf(take.spectrogram) }));
  const room = known.flatMap(({ take, powers }) => (take.label === "_background_noise_" ? [powers] : []));
  const shift = (powers: Powers) =>
    shiftedPowers(powers, between(chance, -how.shiftColumns, how.shiftColumns), chance);
  return known.flatMap(copied);

  function copied({ take, powers }: Known): Take[] {
    const copies = take.label === "_background_noise_" ? coloured(powers) : words(powers);
    return [take, ...copies.map((copy) => ({ label: take.label, spectrogram: levelsOf(copy) }))];
  }

  function words(powers: Powers): Float32Array[] {
    return [
      ...Array.from({ length: how.shifted }, () => shift(powers)),
      ...Array.from({ length: how.noisy }, () =>
        mixedPowers(shift(powers), noise(room, chance), decibels(chance, how.speechOverNoise)),
      ),
    ];
  }

  /** Noise beside the room's own, as much as a word has copies: what hums and hisses is no word wherever it stands. */
  function coloured({ bins }: Powers): Float32Array[] {
    return Array.from({ length: how.shifted + how.noisy }, () =>
      mixedPowers(bins, hiss(chance), decibels(chance, [-10, 10])),
    );
  }
}

/** The room's own noise as often as made noise, where there is any of it. */
function noise(room: readonly Powers[], chance: Chance): Float32Array {
  const own = room[Math.floor(chance() * room.length)];
  if (!own || chance() < 0.5) return hiss(chance);
  return shiftedPowers(own, between(chance, 0, COLUMNS - 1), chance);
}

/**
 * Noise whose power falls by 0 to 6 dB an octave (white, pink, brown and between); a bin's power is spread as that of Gaussian noise
 * (exponentially).
 */
function hiss(chance: Chance): Float32Array {
  const slope = 2 * chance();
  const mean = Float32Array.from({ length: BINS }, (_, bin) => (bin + 1) ** -slope);
  return Float32Array.from(
    { length: COLUMNS * BINS },
    (_, at) => -Math.log(1 - chance()) * (mean[at % BINS] ?? 0) + 1e-12,
  );
}

/**
 * A spectrogram moved by columns, later where above zero. What comes in at the side is taken by chance from its own quietest columns.
 */
export function shifted(spectrogram: Float32Array, by: number, chance: Chance): Float32Array {
  return levelsOf(shiftedPowers(powersOf(spectrogram), by, chance));
}

function shiftedPowers({ bins, quiet }: Powers, by: number, chance: Chance): Float32Array {
  const out = new Float32Array(COLUMNS * BINS);
  for (let column = 0; column < COLUMNS; column++) {
    const inside = column - by >= 0 && column - by < COLUMNS;
    const from = inside ? column - by : (quiet[Math.floor(chance() * quiet.length)] ?? 0);
    out.set(bins.subarray(from * BINS, (from + 1) * BINS), column * BINS);
  }
  return out;
}

/** Two sounds at once: their powers add up. The second is made so loud that the first is over it by so many dB. */
export function mixed(speech: Float32Array, noise: Float32Array, speechOverNoise: number): Float32Array {
  return levelsOf(mixedPowers(powersOf(speech).bins, powersOf(noise).bins, speechOverNoise));
}

function mixedPowers(speech: Float32Array, noise: Float32Array, speechOverNoise: number): Float32Array {
  const gain = loudness(speech) / loudness(noise) / 10 ** (speechOverNoise / 10);
  return speech.map((power, at) => power + gain * (noise[at] ?? 0));
}

/** The mean power of the louder half of the columns: of speech, the part that is spoken. */
function loudness(bins: Float32Array): number {
  const louder = columnsOf(bins)
    .sort((a, b) => b - a)
    .slice(0, Math.ceil(COLUMNS / 2));
  return louder.reduce((sum, power) => sum + power, 0) / louder.length;
}

function powersOf(spectrogram: Float32Array): Powers {
  const bins = spectrogram.map((level) => 10 ** (level / 10));
  const columns = columnsOf(bins);
  const quiet = [...columns.keys()]
    .sort((a, b) => (columns[a] ?? 0) - (columns[b] ?? 0))
    .slice(0, Math.ceil(COLUMNS / 5));
  return { bins, quiet };
}

function levelsOf(bins: Float32Array): Float32Array {
  return bins.map((power) => 10 * Math.log10(power));
}

function columnsOf(bins: Float32Array): number[] {
  return Array.from({ length: COLUMNS }, (_, column) => {
    let sum = 0;
    for (let bin = 0; bin < BINS; bin++) sum += bins[column * BINS + bin] ?? 0;
    return sum;
  });
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
