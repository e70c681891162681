/** Density of the normal distribution. */
export function density(x: number, mean: number, variance: number): number {
  return Math.exp((-0.5 * (x - mean) ** 2) / variance) / Math.sqrt(2 * Math.PI * variance);
}

/**
 * Share of a normal distribution below `x`. Abramowitz and Stegun, Handbook of Mathematical Functions, 7.1.26 (erf to
 * 1.5e-7; from memory, tested against the values of table 26.1).
 */
export function below(x: number, mean: number, variance: number): number {
  const z = (x - mean) / Math.sqrt(2 * variance);
  const t = 1 / (1 + 0.3275911 * Math.abs(z));
  const poly =
    t * (0.254829592 + t * (-0.284496736 + t * (1.421413741 + t * (-1.453152027 + t * 1.061405429))));
  const erf = 1 - poly * Math.exp(-z * z);
  return 0.5 * (1 + Math.sign(z) * erf);
}
