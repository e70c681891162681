/** The value below which this share of the values lies. */
export function quantile(values: readonly number[], share: number): number {
  const sorted = [...values].sort((a, b) => a - b);
  return sorted[Math.min(sorted.length - 1, Math.floor(share * sorted.length))] ?? Number.NaN;
}

export function sum(values: readonly number[]): number {
  return values.reduce((total, value) => total + value, 0);
}

export function percent(part: number, whole: number): string {
  return `${((100 * part) / whole).toFixed(1)} %`;
}

/** A row of a Markdown table. */
export function row(...cells: readonly (string | number)[]): string {
  return `| ${cells.join(" | ")} |`;
}

/** "-1: 3, 0: 70, +1: 20". */
export function histogram(values: readonly number[]): string {
  const times = new Map<number, number>();
  for (const value of values) times.set(value, (times.get(value) ?? 0) + 1);
  return [...times]
    .sort(([a], [b]) => a - b)
    .map(([value, count]) => `${value > 0 ? "+" : ""}${value}: ${count}`)
    .join(", ");
}
