import { factor } from "../measure/scale.ts";
import { coAirFree } from "./carbon-monoxide.ts";
import type { FuelGas } from "./composition.ts";
import { MOLAR_GAS_CONSTANT } from "./heat-capacity.ts";
import { MOLECULES } from "./molecule.ts";
import { stoichiometry } from "./stoichiometry.ts";

/**
 * CO emission per heat input, mg/kWh on the net heating value (ISO 6976:2016 at 15 °C), from CO (ppm, dry) and O2 (vol-%,
 * dry) of the flue gas; null where `coAirFree` is. This is the figure of the European appliance standards.
 */
export function coMilligramsPerKilowattHour(gas: FuelGas, co: number, o2: number): number | null {
  const airFree = coAirFree(co, o2);
  if (airFree === null) return null;
  // Per mole of fuel: millimoles of CO times g/mol is mg; kJ over 3600 is kWh.
  const milligrams = (airFree / 1e3) * stoichiometry(gas).dryFlue * MOLECULES["carbon-monoxide"].molarMass;
  return milligrams / (gas.net[15] / 3600);
}

/** O2 of air in the US EPA's formulas, vol-%. */
const EPA_AIR_O2 = 20.9;

/**
 * Fuel factor Fo of the US EPA (40 CFR 60 appendix A, method 3B), no unit: (20.9 - O2)/CO2, both dry vol-% and corrected for
 * CO (ppm). It tells whether O2 and CO2 belong to one flue gas of one fuel. Null where no CO2 or no number is given.
 */
export function fuelFactor(o2: number, co2: number, co = 0): number | null {
  const coPercent = co / 10_000;
  const carbon = co2 + coPercent;
  if (!(o2 >= 0 && o2 <= EPA_AIR_O2 && co2 >= 0 && co >= 0 && carbon > 0)) return null;
  const result = (EPA_AIR_O2 - (o2 - 0.5 * coPercent)) / carbon;
  return Number.isFinite(result) ? result : null;
}

/** Cubic feet of ideal gas per mole at the EPA's standard state, 68 °F and 29.92 in. Hg. */
const FT3_PER_MOLE = ((MOLAR_GAS_CONSTANT * 293.15) / 101_325) * factor("m3", "[cft_i]");
const KJ_PER_MMBTU = factor("1000000.[Btu_IT]", "kJ");

/**
 * F factors of the US EPA (40 CFR 60 appendix A, method 19) from the composition: dry flue gas at zero excess air (Fd, ft3)
 * and CO2 (Fc, ft3) for a million Btu of gross heating value. The published ones are averages of commercial fuels.
 */
export function fFactors(gas: FuelGas): { readonly fFactorDry: number; readonly fFactorCarbon: number } {
  const cubicFeet = (KJ_PER_MMBTU / gas.gross[15]) * FT3_PER_MOLE;
  return { fFactorDry: cubicFeet * stoichiometry(gas).dryFlue, fFactorCarbon: cubicFeet * gas.c };
}
