import { z } from "zod";
import { type Scale, scaleOf } from "./scale.ts";

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

/** The unit that the scales of a dimension count in. */
const BASES = {
  percent: "%",
  parts: "[ppm]",
  temperature: "Cel",
  pressure: "Pa",
  speed: "/min",
  current: "uA",
  time: "s",
  flow: "L/min",
  length: "m",
} as const satisfies Record<string, Unit>;

interface Row extends Scale {
  readonly dimension: keyof typeof BASES;
  readonly spoken: string;
  readonly shown: string;
}

const ROWS: Readonly<Record<Unit, Row>> = {
  "%": row("%", "percent", "percent", "%"),
  "[ppm]": row("[ppm]", "parts", "parts per million", "ppm"),
  Cel: row("Cel", "temperature", "degrees Celsius", "°C"),
  "[degF]": row("[degF]", "temperature", "degrees Fahrenheit", "°F"),
  Pa: row("Pa", "pressure", "pascals", "Pa"),
  mbar: row("mbar", "pressure", "millibar", "mbar"),
  kPa: row("kPa", "pressure", "kilopascals", "kPa"),
  "[in_i'H2O]": row("[in_i'H2O]", "pressure", "inches of water", "in. w.c."),
  "[psi]": row("[psi]", "pressure", "pounds per square inch", "psi"),
  "/min": row("/min", "speed", "revolutions per minute", "rpm"),
  uA: row("uA", "current", "microamps", "µA"),
  s: row("s", "time", "seconds", "s"),
  "L/min": row("L/min", "flow", "litres per minute", "L/min"),
  "[gal_us]/min": row("[gal_us]/min", "flow", "gallons per minute", "gal/min"),
  m: row("m", "length", "metres", "m"),
  "[ft_i]": row("[ft_i]", "length", "feet", "ft"),
};

/** The library is asked once, on load: `convert` is on the parser's path. */
function row(unit: Unit, dimension: Row["dimension"], spoken: string, shown: string): Row {
  return { dimension, spoken, shown, ...scaleOf(unit, BASES[dimension]) };
}

/** Converts a value between two units of one dimension. Throws RangeError where the dimensions differ: a programming error. */
export function convert(value: number, from: Unit, to: Unit): number {
  if (from === to) return value;
  const a = ROWS[from];
  const b = ROWS[to];
  if (a.dimension !== b.dimension) throw new RangeError(`no way from ${from} to ${to}`);
  return ((value - a.zero) / a.perBase) * b.perBase + b.zero;
}

/** The unit that the scale of this one counts in. */
export function baseOf(unit: Unit): Unit {
  return BASES[ROWS[unit].dimension];
}

/** The unit as spoken in an answer ("inches of water"). */
export function spokenUnit(unit: Unit): string {
  return ROWS[unit].spoken;
}

/** The unit as shown on a screen or a report ("in. w.c."). */
export function shownUnit(unit: Unit): string {
  return ROWS[unit].shown;
}
