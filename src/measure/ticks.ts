/** At most so many numbers on the scale. */
const MOST_TICKS = 7;

/** Round numbers, 1, 2 or 5 times a power of ten apart. */
export function ticksOf(from: number, to: number): number[] {
  const rough = (to - from) / MOST_TICKS;
  const power = 10 ** Math.floor(Math.log10(rough));
  const step = ([1, 2, 5, 10].find((times) => times * power >= rough) ?? 10) * power;
  const first = Math.ceil(from / step - 1e-9);
  const count = Math.floor(to / step + 1e-9) - first + 1;
  return Array.from({ length: count }, (_, i) => Number(((first + i) * step).toPrecision(9)));
}
