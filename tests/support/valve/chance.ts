/** Numbers that look drawn by chance and are the same for the same seed. */
export interface Chance {
  /** Evenly from a range. */
  readonly from: (least: number, most: number) => number;
  /** Normal distribution, mean 0, standard deviation 1. */
  readonly normal: () => number;
  /** True with this probability. */
  readonly is: (probability: number) => boolean;
  readonly oneOf: <const T>(values: readonly [T, ...T[]]) => T;
}

/** The generator is mulberry32, a public-domain 32-bit one (from memory): good enough to draw valves. */
export function chance(seed: number): Chance {
  let state = (seed * 2654435761) | 0;
  const next = () => {
    state = (state + 0x6d2b79f5) | 0;
    let t = Math.imul(state ^ (state >>> 15), 1 | state);
    t = (t + Math.imul(t ^ (t >>> 7), 61 | t)) ^ t;
    return ((t ^ (t >>> 14)) >>> 0) / 4294967296;
  };
  return {
    from: (least, most) => least + (most - least) * next(),
    normal: () => Math.sqrt(-2 * Math.log(1 - next())) * Math.cos(2 * Math.PI * next()),
    is: (probability) => next() < probability,
    oneOf: (values) => values[Math.floor(next() * values.length)] ?? values[0],
  };
}
