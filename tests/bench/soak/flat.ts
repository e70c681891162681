/** How much more may be held in the last quarter than in the second: a share of that, or so much, whichever is more. */
export interface Margin {
  readonly share: number;
  readonly amount: number;
  readonly unit: "MiB" | "";
}

export interface Flatness {
  readonly ok: boolean;
  /** For people: the means of both quarters, the margin, and whether it was kept. */
  readonly lines: readonly string[];
}

/** Whether what is held stays the same: the mean of the last quarter of the samples against that of the second. */
export function flatness<Name extends string>(
  samples: readonly Readonly<Record<Name, number>>[],
  margins: Readonly<Record<Name, Margin>>,
): Flatness {
  const quarter = Math.floor(samples.length / 4);
  if (quarter === 0) return { ok: false, lines: ["expected at least four samples"] };
  const judged = (Object.entries(margins) as [Name, Margin][]).map(([name, { share, amount, unit }]) => {
    const then = mean(samples.slice(quarter, 2 * quarter).map((sample) => sample[name]));
    const now = mean(samples.slice(-quarter).map((sample) => sample[name]));
    const ok = now <= then + Math.max(share * then, amount);
    const more = amount === 0 ? "no more" : `at most ${share * 100} % or ${shown(amount, unit)} more`;
    const line = `${name}: second quarter ${shown(then, unit)}, last ${shown(now, unit)} (${more}: ${ok ? "flat" : "GROWN"})`;
    return { ok, line };
  });
  return { ok: judged.every(({ ok }) => ok), lines: judged.map(({ line }) => line) };
}

export function shown(value: number, unit: Margin["unit"]): string {
  return unit === "MiB" ? `${(value / 2 ** 20).toFixed(1)} MiB` : String(Math.round(value * 10) / 10);
}

function mean(values: readonly number[]): number {
  return values.reduce((sum, value) => sum + value, 0) / values.length;
}
