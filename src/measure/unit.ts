import { z } from "zod";

/** The units a person can say here, as UCUM codes (UCUM essence 2.2). */
export const UNITS = [
  "%",
  "[ppm]",
  "Cel",
  "[degF]",
  "Pa",
  "mbar",
  "kPa",
  "[in_i'H2O]",
  "[psi]",
  "/min",
  "uA",
  "s",
  "[gal_us]/min",
  "L/min",
  "m",
  "[ft_i]",
] as const;

export const Unit = z.enum(UNITS);
export type Unit = z.infer<typeof Unit>;

/** A unit as a scale and an offset to its dimension's base: base = value * scale + offset. */
interface Scale {
  readonly dimension: string;
  readonly scale: number;
  readonly offset?: number;
  readonly spoken: string;
  readonly shown: string;
}

// Exact factors, except inch of water (conventional, 249.08891 Pa) and psi (6894.757293 Pa): UCUM essence 2.2.
const SCALES: Readonly<Record<Unit, Scale>> = {
  "%": { dimension: "percent", scale: 1, spoken: "percent", shown: "%" },
  "[ppm]": { dimension: "parts", scale: 1, spoken: "parts per million", shown: "ppm" },
  Cel: { dimension: "temperature", scale: 1, spoken: "degrees Celsius", shown: "°C" },
  "[degF]": {
    dimension: "temperature",
    scale: 5 / 9,
    offset: -160 / 9,
    spoken: "degrees Fahrenheit",
    shown: "°F",
  },
  Pa: { dimension: "pressure", scale: 1, spoken: "pascals", shown: "Pa" },
  mbar: { dimension: "pressure", scale: 100, spoken: "millibar", shown: "mbar" },
  kPa: { dimension: "pressure", scale: 1000, spoken: "kilopascals", shown: "kPa" },
  "[in_i'H2O]": { dimension: "pressure", scale: 249.08891, spoken: "inches of water", shown: "in. w.c." },
  "[psi]": {
    dimension: "pressure",
    scale: 6894.757293168361,
    spoken: "pounds per square inch",
    shown: "psi",
  },
  "/min": { dimension: "speed", scale: 1, spoken: "revolutions per minute", shown: "rpm" },
  uA: { dimension: "current", scale: 1, spoken: "microamps", shown: "µA" },
  s: { dimension: "time", scale: 1, spoken: "seconds", shown: "s" },
  "L/min": { dimension: "flow", scale: 1, spoken: "litres per minute", shown: "L/min" },
  "[gal_us]/min": { dimension: "flow", scale: 3.785411784, spoken: "gallons per minute", shown: "gal/min" },
  m: { dimension: "length", scale: 1, spoken: "metres", shown: "m" },
  "[ft_i]": { dimension: "length", scale: 0.3048, spoken: "feet", shown: "ft" },
};

/** Converts a value between two units of one dimension. Throws RangeError where the dimensions differ: a programming error. */
export function convert(value: number, from: Unit, to: Unit): number {
  if (from === to) return value;
  const a = SCALES[from];
  const b = SCALES[to];
  if (a.dimension !== b.dimension) throw new RangeError(`no way from ${from} to ${to}`);
  return (value * a.scale + (a.offset ?? 0) - (b.offset ?? 0)) / b.scale;
}

/** Whether one unit can be converted into the other. */
export function comparable(a: Unit, b: Unit): boolean {
  return SCALES[a].dimension === SCALES[b].dimension;
}

/** The unit as spoken in an answer ("inches of water"). */
export function spokenUnit(unit: Unit): string {
  return SCALES[unit].spoken;
}

/** The unit as shown on a screen or a report ("in. w.c."). */
export function shownUnit(unit: Unit): string {
  return SCALES[unit].shown;
}
