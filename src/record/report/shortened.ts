/** The first so many of a list; where there are more, one place fewer and how many were left out. */
export function shortened<T>(
  all: readonly T[],
  most: number,
): { readonly shown: readonly T[]; readonly more: string } {
  if (all.length <= most) return { shown: all, more: "" };
  return { shown: all.slice(0, most - 1), more: moreOf(all.length - most + 1) };
}

/** Where the rest is. */
export function moreOf(count: number): string {
  return `And ${count} more, all are in the exported visit.`;
}
