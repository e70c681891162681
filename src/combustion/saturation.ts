// IAPWS R7-97(2012), industrial formulation 1997 (IF97), region 4: the saturation line, valid 273.15 to 647.096 K.
// Table 34, coefficients n1 to n10; equations 30 (pressure) and 31 (temperature, the backward equation).
const N1 = 0.11670521452767e4;
const N2 = -0.72421316703206e6;
const N3 = -0.17073846940092e2;
const N4 = 0.1202082470247e5;
const N5 = -0.32325550322333e7;
const N6 = 0.1491510861353e2;
const N7 = -0.48232657361591e4;
const N8 = 0.40511340542057e6;
const N9 = -0.23855557567849;
const N10 = 0.65017534844798e3;

/** Saturation pressure of water, Pa, at 0 to 373.946 °C; null outside. */
export function saturationPressure(celsius: number): number | null {
  const t = celsius + 273.15;
  if (!(t >= 273.15 && t <= 647.096)) return null;
  const theta = t + N9 / (t - N10);
  const a = theta * theta + N1 * theta + N2;
  const b = N3 * theta * theta + N4 * theta + N5;
  const c = N6 * theta * theta + N7 * theta + N8;
  return 1e6 * ((2 * c) / (-b + Math.sqrt(b * b - 4 * a * c))) ** 4;
}

/** Saturation temperature of water, °C, at 611.213 Pa (0 °C) to 22.064 MPa; null outside. */
export function saturationTemperature(pascal: number): number | null {
  if (!(pascal >= 611.213 && pascal <= 22.064e6)) return null;
  const beta = (pascal / 1e6) ** 0.25;
  const e = beta * beta + N3 * beta + N6;
  const f = N1 * beta * beta + N4 * beta + N7;
  const g = N2 * beta * beta + N5 * beta + N8;
  const d = (2 * g) / (-f - Math.sqrt(f * f - 4 * e * g));
  return (N10 + d - Math.sqrt((N10 + d) ** 2 - 4 * (N9 + N10 * d))) / 2 - 273.15;
}
