// IAPWS R7-97(2012), industrial formulation 1997 (IF97), region 1: liquid water, 273.15 to 623.15 K up to 100 MPa.
// Table 2, coefficients I, J and n of the dimensionless Gibbs energy, equation 7.
const TERMS: readonly (readonly [i: number, j: number, n: number])[] = [
  [0, -2, 0.14632971213167],
  [0, -1, -0.84548187169114],
  [0, 0, -0.3756360367204e1],
  [0, 1, 0.33855169168385e1],
  [0, 2, -0.95791963387872],
  [0, 3, 0.15772038513228],
  [0, 4, -0.16616417199501e-1],
  [0, 5, 0.81214629983568e-3],
  [1, -9, 0.28319080123804e-3],
  [1, -7, -0.60706301565874e-3],
  [1, -1, -0.18990068218419e-1],
  [1, 0, -0.32529748770505e-1],
  [1, 1, -0.21841717175414e-1],
  [1, 3, -0.5283835796993e-4],
  [2, -3, -0.47184321073267e-3],
  [2, 0, -0.30001780793026e-3],
  [2, 1, 0.47661393906987e-4],
  [2, 3, -0.44141845330846e-5],
  [2, 17, -0.72694996297594e-15],
  [3, -4, -0.31679644845054e-4],
  [3, 0, -0.28270797985312e-5],
  [3, 6, -0.85205128120103e-9],
  [4, -5, -0.22425281908e-5],
  [4, -2, -0.65171222895601e-6],
  [4, 10, -0.14341729937924e-12],
  [5, -8, -0.40516996860117e-6],
  [8, -11, -0.12734301741641e-8],
  [8, -6, -0.17424871230634e-9],
  [21, -29, -0.68762131295531e-18],
  [23, -31, 0.14478307828521e-19],
  [29, -38, 0.26335781662795e-22],
  [30, -39, -0.11947622640071e-22],
  [31, -40, 0.18228094581404e-23],
  [32, -41, -0.93537087292458e-25],
];

const SPECIFIC_GAS_CONSTANT = 461.526; // J/(kg K)

export interface Water {
  /** kg/m3. */
  readonly density: number;
  /** kJ/kg above the liquid at the triple point. */
  readonly enthalpy: number;
  /** At constant pressure, kJ/(kg K). */
  readonly heatCapacity: number;
}

/**
 * Liquid water at a temperature of 0 to 350 °C and a pressure (Pa) above saturation, up to 100 MPa; null outside those
 * limits. Whether it is liquid there is the caller's to know: below the saturation pressure it is a superheated liquid.
 */
export function water(celsius: number, pascal: number): Water | null {
  const kelvin = celsius + 273.15;
  if (!(kelvin >= 273.15 && kelvin <= 623.15 && pascal > 0 && pascal <= 100e6)) return null;
  const tau = 1386 / kelvin;
  const a = 7.1 - pascal / 16.53e6;
  const b = tau - 1.222;
  let byPi = 0;
  let byTau = 0;
  let byTauTau = 0;
  for (const [i, j, n] of TERMS) {
    byPi -= n * i * a ** (i - 1) * b ** j;
    byTau += n * a ** i * j * b ** (j - 1);
    byTauTau += n * a ** i * j * (j - 1) * b ** (j - 2);
  }
  const rt = SPECIFIC_GAS_CONSTANT * kelvin;
  return {
    density: 16.53e6 / (rt * byPi),
    enthalpy: (rt * tau * byTau) / 1000,
    heatCapacity: (-SPECIFIC_GAS_CONSTANT * tau * tau * byTauTau) / 1000,
  };
}
