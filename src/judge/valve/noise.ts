import { resolution } from "../resolution.ts";

/** An analyser's repeatability in CO2, vol-%, as a standard deviation: half its last digit (common practice, no source). */
const REPEATABILITY = 0.05;

/** Standard deviation of a CO2 reading about the true value, vol-%: repeatability, and the rounding of its last digit. */
export function readingNoise(value: number): number {
  const step = 10 ** -resolution("co2", value, "%");
  return Math.sqrt(REPEATABILITY ** 2 + step ** 2 / 12);
}
