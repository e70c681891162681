import FFT from "fft.js";
import type { Recording } from "../../../src/device/ears/offline/recording.ts";

/**
 * Noise for the benchmark alone: another generator than the one that the models were trained with
 * (grammars/en/acoustic/noise.py), and other recipes. Everything comes from a seed.
 */
export const NOISES = ["burner", "fan", "pump", "plant-room", "people"] as const;
export type Noise = (typeof NOISES)[number];

export type Random = () => number;

export function seeded(seed: number): Random {
  let state = seed >>> 0;
  return () => {
    state = (state + 0x6d2b79f5) >>> 0;
    let mixed = Math.imul(state ^ (state >>> 15), 1 | state);
    mixed = (mixed + Math.imul(mixed ^ (mixed >>> 7), 61 | mixed)) ^ mixed;
    return ((mixed ^ (mixed >>> 14)) >>> 0) / 2 ** 32;
  };
}

/** @param talk stretches of other people's speech at the same rate, for "people" and "plant-room" */
export function noise(
  kind: Noise,
  length: number,
  rate: number,
  random: Random,
  talk: readonly Float32Array[],
): Float32Array {
  switch (kind) {
    case "burner":
      return flame(length, rate, random);
    case "fan":
      return sum(blades(length, rate, random), scaled(flame(length, rate, random), 0.3));
    case "pump":
      return sum(motor(length, rate, random), scaled(flame(length, rate, random), 0.25));
    case "plant-room":
      return sum(
        sum(flame(length, rate, random), blades(length, rate, random)),
        sum(knocks(length, rate, random), scaled(people(length, random, talk), 0.5)),
      );
    case "people":
      return sum(people(length, random, talk), scaled(flame(length, rate, random), 0.2));
  }
}

/** White noise through three slow leaks, its loudness wandering as a flame's does. */
function flame(length: number, rate: number, random: Random): Float32Array {
  const out = new Float32Array(length);
  let [slow, middle, wander] = [0, 0, 0];
  for (let at = 0; at < length; at++) {
    const white = random() * 2 - 1;
    slow += (white - slow) * (180 / rate) * 6;
    middle += (white - middle) * (1400 / rate) * 6;
    wander += (random() * 2 - 1 - wander) * (9 / rate) * 6;
    out[at] = (slow * 2.2 + middle * 0.8 + white * 0.12) * (1 + 6 * wander);
  }
  return out;
}

function blades(length: number, rate: number, random: Random): Float32Array {
  const turn = 18 + 30 * random();
  const count = 5 + Math.floor(random() * 6);
  const phases = Array.from({ length: 8 }, () => random() * 2 * Math.PI);
  let air = 0;
  return Float32Array.from({ length }, (_, at) => {
    const time = at / rate;
    air += (random() * 2 - 1 - air) * 0.5;
    const beat = 1 + 0.5 * Math.sin(2 * Math.PI * turn * time);
    const tones = phases.reduce(
      (all, phase, n) => all + Math.sin(2 * Math.PI * turn * count * (n + 1) * time + phase) / (n + 2),
      0,
    );
    return air * beat * 0.5 + tones * 0.12;
  });
}

function motor(length: number, rate: number, random: Random): Float32Array {
  const mains = random() < 0.5 ? 50 : 60;
  const weights = Array.from({ length: 30 }, () => random() ** 3);
  return Float32Array.from({ length }, (_, at) => {
    const time = at / rate;
    return (
      weights.reduce(
        (all, weight, n) => all + weight * Math.sin(2 * Math.PI * mains * (n + 1) * time + n),
        0,
      ) * 0.1
    );
  });
}

/** A spanner on a pipe, a few times. */
function knocks(length: number, rate: number, random: Random): Float32Array {
  const out = new Float32Array(length);
  for (let knock = 0; knock < 2 + (3 * length) / rate; knock++) {
    const from = Math.floor(random() * length);
    const pitch = 400 + 3600 * random();
    for (let at = from; at < Math.min(length, from + rate * 0.2); at++) {
      const time = (at - from) / rate;
      out[at] = (out[at] ?? 0) + Math.exp(-28 * time) * Math.sin(2 * Math.PI * pitch * time) * 2;
    }
  }
  return out;
}

function people(length: number, random: Random, talk: readonly Float32Array[]): Float32Array {
  const out = new Float32Array(length);
  for (let voice = 0; voice < 3 && talk.length > 0; voice++) {
    let at = -Math.floor(random() * 8000);
    while (at < length) {
      const said = talk[Math.floor(random() * talk.length)] ?? new Float32Array(1);
      for (let n = Math.max(0, -at); n < said.length && at + n < length; n++) {
        out[at + n] = (out[at + n] ?? 0) + (said[n] ?? 0);
      }
      at += said.length + Math.floor(random() * 4000);
    }
  }
  return out;
}

function sum(a: Float32Array, b: Float32Array): Float32Array {
  const [left, right] = [scaled(a, 1 / (rms(a) + 1e-9)), scaled(b, 1 / (rms(b) + 1e-9))];
  const weigh = rms(b) / (rms(a) + 1e-9);
  return left.map((value, at) => value + Math.min(1, weigh) * (right[at] ?? 0));
}

function scaled(a: Float32Array, gain: number): Float32Array {
  return a.map((value) => value * gain);
}

function rms(a: Float32Array): number {
  return Math.sqrt(a.reduce((all, value) => all + value * value, 0) / Math.max(1, a.length));
}

/** Adds noise at a ratio in dB of the mean powers between 300 and 3400 Hz, the speech's over its own length. */
export function withNoise({ samples, rate }: Recording, added: Float32Array, decibels: number): Recording {
  const gain = Math.sqrt(bandPower(samples, rate) / (bandPower(added, rate) + 1e-12) / 10 ** (decibels / 10));
  return { rate, samples: samples.map((value, at) => value + gain * (added[at] ?? 0)) };
}

const BLOCK = 1024;

/** Mean power between 300 and 3400 Hz, over the blocks that are not silent. */
function bandPower(samples: Float32Array, rate: number): number {
  const fft = new FFT(BLOCK);
  const spectrum = fft.createComplexArray();
  const powers: number[] = [];
  for (let from = 0; from + BLOCK <= samples.length; from += BLOCK) {
    fft.realTransform(spectrum, [...samples.subarray(from, from + BLOCK)]);
    let power = 0;
    for (let bin = Math.ceil((300 * BLOCK) / rate); bin <= (3400 * BLOCK) / rate; bin++) {
      power += (spectrum[2 * bin] ?? 0) ** 2 + (spectrum[2 * bin + 1] ?? 0) ** 2;
    }
    powers.push(power);
  }
  const loudest = Math.max(...powers);
  const spoken = powers.filter((power) => power > loudest * 1e-4);
  return spoken.reduce((all, power) => all + power, 0) / Math.max(1, spoken.length);
}
