/** Gases of the flue. Argon of the air is counted as nitrogen, which moves the loss by less than 0.3 % of itself. */
export type FlueSpecies = "co2" | "h2o" | "n2" | "o2";

export const MOLAR_GAS_CONSTANT = 8.3144621; // J/(mol K), as ISO 6976:2016 has it

// NASA seven-coefficient polynomials, 200 to 1000 K: cp/R = a1 + a2 T + a3 T^2 + a4 T^3 + a5 T^4.
// McBride, Gordon, Reno, "Coefficients for calculating thermodynamic and transport properties of individual species",
// NASA TM-4513 (1993). GRI-Mech's N2 set differs (1.3 % high at 400 K) and must not be used.
const NASA7: Readonly<Record<FlueSpecies, readonly [number, number, number, number, number]>> = {
  co2: [2.35677352, 8.98459677e-3, -7.12356269e-6, 2.45919022e-9, -1.43699548e-13],
  h2o: [4.19864056, -2.0364341e-3, 6.52040211e-6, -5.48797062e-9, 1.77197817e-12],
  n2: [3.53100528, -1.23660988e-4, -5.02999433e-7, 2.43530612e-9, -1.40881235e-12],
  o2: [3.78245636, -2.99673416e-3, 9.84730201e-6, -9.68129509e-9, 3.24372837e-12],
};

/** Heat capacity at constant pressure of the ideal gas, J/(mol K), at 200 to 1000 K. */
export function heatCapacity(species: FlueSpecies, kelvin: number): number {
  const [a1, a2, a3, a4, a5] = NASA7[species];
  return MOLAR_GAS_CONSTANT * (a1 + kelvin * (a2 + kelvin * (a3 + kelvin * (a4 + kelvin * a5))));
}

/** Enthalpy taken up from one temperature (°C) to another, kJ/mol; the integral of the heat capacity. */
export function enthalpyRise(species: FlueSpecies, fromCelsius: number, toCelsius: number): number {
  const [a1, a2, a3, a4, a5] = NASA7[species];
  const integral = (t: number) => t * (a1 + t * (a2 / 2 + t * (a3 / 3 + t * (a4 / 4 + (t * a5) / 5))));
  return (MOLAR_GAS_CONSTANT * (integral(toCelsius + 273.15) - integral(fromCelsius + 273.15))) / 1000;
}
