import type { Chance } from "../../spotter/augment.ts";
import { EAR_RATE } from "./mel.ts";

/** Speech over noise is told above this, Hz: below it a burner is loud and a voice has little to lose. */
const HIGH_PASS = 300;

/**
 * A clip with noise mixed in, such as a plant room has: a hiss whose colour and loudness wander, in half of the clips with a
 * hum. Of our own making.
 * @param decibels mean power of the clip over that of the noise, above 300 Hz
 */
export function noisy(sound: Float32Array, decibels: number, chance: Chance): Float32Array {
  const added = roomNoise(sound.length, chance);
  const gain = Math.sqrt(power(sound) / (power(added) + 1e-12) / 10 ** (decibels / 10));
  return sound.map((sample, at) => sample + gain * (added[at] ?? 0));
}

function roomNoise(length: number, chance: Chance): Float32Array {
  const dark = 0.6 + 0.38 * chance();
  const bright = 0.9 * chance();
  const hum = chance() < 0.5 ? 0.06 * chance() : 0;
  const turn = (2 * Math.PI * (40 + 80 * chance())) / EAR_RATE;
  let [low, high, loudness] = [0, 0, 0];
  return Float32Array.from({ length }, (_, at) => {
    const white = 2 * chance() - 1;
    low += (1 - dark) * (white - low);
    high += (1 - bright) * (white - high);
    loudness += 0.001 * (2 * chance() - 1 - loudness);
    let tone = 0;
    if (hum > 0) for (let n = 1; n < 6; n++) tone += Math.sin(turn * n * at + n) / n;
    return (2 * low + 0.3 * high) * (1 + 5 * loudness) + hum * tone;
  });
}

/** Mean power after a high pass of first order. */
function power(sound: Float32Array): number {
  const keep = 1 / (1 + (2 * Math.PI * HIGH_PASS) / EAR_RATE);
  let [past, out, sum] = [0, 0, 0];
  for (const sample of sound) {
    out = keep * (out + sample - past);
    past = sample;
    sum += out * out;
  }
  return sum / Math.max(1, sound.length);
}
