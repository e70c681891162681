/** What is wrong with one field of an input and what was expected. */
export interface Problem<Path extends string> {
  readonly path: Path;
  readonly message: string;
}

/** The problem of a value outside a range, both ends included; none where it is not given. NaN is outside. */
export function outOf<Path extends string>(
  path: Path,
  value: number | undefined,
  { min, max }: { readonly min: number; readonly max: number },
  unit: string,
): Problem<Path>[] {
  if (value === undefined || (value >= min && value <= max)) return [];
  return [{ path, message: `expected ${min} to ${max} ${unit}, got ${value} ${unit}` }];
}
