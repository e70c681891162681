import { ucum } from "@atomic-ehr/ucum";

/** A unit on the scale of another: value = base * perBase + zero. */
export interface Scale {
  readonly perBase: number;
  /** The value at the base's zero: 32 for Fahrenheit on Celsius, else 0. */
  readonly zero: number;
}

/**
 * The scale of one UCUM unit on another, from a UCUM library (UCUM essence 2.2). Its arithmetic leaves noise in the
 * temperatures (212 °F is 100.00000000000006 °C), so the numbers are taken over a long span and rounded.
 * Throws where a code is unknown or the units are of different dimensions: a programming error.
 */
export function scaleOf(unit: string, base: string): Scale {
  if (unit === base) return { perBase: 1, zero: 0 };
  const span = 10_000;
  const zero = ucum.convert(0, base, unit);
  const perBase = (ucum.convert(span, base, unit) - zero) / span;
  return { perBase: rounded(perBase, 15), zero: rounded(zero, 12) };
}

/** What one of a UCUM unit is in another, for units without an offset: factor("[cft_i]", "m3") is 0.028316846592. Throws as `scaleOf`. */
export function factor(from: string, to: string): number {
  return rounded(ucum.convert(1, from, to), 15);
}

function rounded(value: number, figures: number): number {
  return Number(value.toPrecision(figures));
}
