import { quantityOf } from "../measure/quantity.ts";

/** Standard atmosphere, Pa: pressure at sea level, and the reference pressure of ISO 6976. */
export const STANDARD_PRESSURE = 101_325;

/**
 * Pressure of the standard atmosphere, Pa, at an altitude of -500 to 6000 m above sea level; null outside.
 * Source: ISO 2533:1975 (the ICAO standard atmosphere), troposphere. The altitude is taken as geopotential, as ASHRAE
 * does: at 2000 m that is 0.008 % below the pressure at that geometric height.
 */
export function atmosphericPressure(altitude: number): number | null {
  const { min, max } = quantityOf("altitude");
  if (!(altitude >= min && altitude <= max)) return null;
  const lapse = 0.0065; // K/m
  const exponent = 9.80665 / (287.05287 * lapse); // g / (R L)
  return STANDARD_PRESSURE * (1 - (lapse * altitude) / 288.15) ** exponent;
}
