import { type Chance, seeded } from "../../src/device/spotter/augment.ts";
import type { Take } from "../../src/device/spotter/take.ts";
import { BINS, CLASSES, COLUMNS } from "../../src/device/spotter/words.ts";

/** Made takes that can be told apart: each class a band of its own that sounds for half a second, in hiss; the first class is only hiss. */
export function madeTakes(each: number, classes: number = CLASSES.length, seed = 1): Take[] {
  const chance = seeded(seed);
  return CLASSES.slice(0, classes).flatMap((label, place) =>
    Array.from({ length: each }, () => ({ label, spectrogram: banded(place, chance) })),
  );
}

function banded(place: number, chance: Chance): Float32Array {
  const from = 8 + Math.floor(8 * chance());
  return Float32Array.from({ length: COLUMNS * BINS }, (_, at) => {
    const [column, bin] = [Math.floor(at / BINS), at % BINS];
    const sounds = place > 0 && Math.abs(bin - 10 * place) < 4 && column >= from && column < from + 22;
    return -90 + 8 * chance() + (sounds ? 30 : 0);
  });
}
