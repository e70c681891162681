import { factor } from "../measure/scale.ts";
import { atmosphericPressure, STANDARD_PRESSURE } from "./atmosphere.ts";

const FEET_PER_METRE = factor("m", "[ft_i]");

/**
 * Density of air at an altitude of -500 to 6000 m over that at sea level, both at the temperature of the room, no unit; null
 * outside. The outdoor air of the standard atmosphere is colder up there as well, the air of a boiler room is not.
 */
export function airDensityRatio(altitude: number): number | null {
  const pressure = atmosphericPressure(altitude);
  return pressure === null ? null : pressure / STANDARD_PRESSURE;
}

/**
 * Input over that at sea level of a premix burner whose fan turns as fast as before, no unit; null outside -500 to 6000 m.
 * The fan moves the same volume of thinner air; the gas, drawn by the air's own pressure drop, thins alike.
 */
export function premixInputRatio(altitude: number): number | null {
  return airDensityRatio(altitude);
}

/**
 * Input over that at sea level of a fixed orifice whose gauge manifold pressure stays, no unit; null outside -500 to 6000 m.
 * The mass through an orifice goes with the root of the density, so the input falls less than the air does: such a burner
 * runs richer up there, which is why the codes derate it.
 */
export function fixedOrificeInputRatio(altitude: number): number | null {
  const ratio = airDensityRatio(altitude);
  return ratio === null ? null : Math.sqrt(ratio);
}

/** Up to here, ft above sea level, ratings stay as they are. */
const DERATE_ABOVE_FEET = 2000;

/**
 * By how much the rated input is to be reduced, %, at an altitude of -500 to 6000 m; null outside. Source: NFPA 54 / ANSI
 * Z223.1 (as reproduced in the Uniform Mechanical Code 2009, B.1.2): nothing up to 2000 ft, above it 4 % for every 1000 ft
 * above sea level, so it begins with a step of 8 %. The maker's own figure for a listed appliance, or the authority's, comes
 * first; Canada has other rules.
 */
export function codeDeratePercent(altitude: number): number | null {
  if (atmosphericPressure(altitude) === null) return null;
  const feet = Number((altitude * FEET_PER_METRE).toPrecision(9)); // 609.6 m is 2000 ft, not a rounding above
  return feet <= DERATE_ABOVE_FEET ? 0 : (4 * feet) / 1000;
}
