import type { Supposition } from "./supposition.ts";

/**
 * Rival suppositions about one screw; at any time their weights sum to one. There are hundreds, and a replay takes hundreds of
 * steps: field by field, the place being the supposition's, a step costs a tenth of what it does with objects.
 */
export interface Bank {
  /** What a supposition stays, whatever is turned and read; the sound ones come first. */
  readonly screws: Screws;
  readonly slack: Float64Array;
  readonly mean: Float64Array;
  readonly variance: Float64Array;
  readonly weight: Float64Array;
}

interface Screws {
  readonly kinds: readonly Supposition["kind"][];
  readonly up: Float64Array;
  readonly down: Float64Array;
  readonly play: Float64Array;
}

/** A bank of these suppositions. */
export function bankOf(suppositions: readonly Supposition[]): Bank {
  const field = (of: (s: Supposition) => number) => Float64Array.from(suppositions.map(of));
  return {
    screws: {
      kinds: suppositions.map(({ kind }) => kind),
      up: field(({ up }) => up),
      down: field(({ down }) => down),
      play: field(({ play }) => play),
    },
    slack: field(({ slack }) => slack),
    mean: field(({ mean }) => mean),
    variance: field(({ variance }) => variance),
    weight: field(({ weight }) => weight),
  };
}

/** The suppositions of a bank, one by one. */
export function suppositionsOf({ screws, slack, mean, variance, weight }: Bank): Supposition[] {
  const { kinds, up, down, play } = screws;
  return kinds.map((kind, i) => ({
    kind,
    up: at(up, i),
    down: at(down, i),
    play: at(play, i),
    slack: at(slack, i),
    mean: at(mean, i),
    variance: at(variance, i),
    weight: at(weight, i),
  }));
}

/** All fields are as long as the bank: there is a value at each place. */
export function at(field: Float64Array, place: number): number {
  return field[place] ?? Number.NaN;
}

/** After a reading that follows on something unknown: the screws stay what they are thought to be, CO2 is where it is read. */
export function placedAt(bank: Bank, value: number, deviation: number): Bank {
  const { length } = bank.mean;
  const [mean, variance] = [
    new Float64Array(length).fill(value),
    new Float64Array(length).fill(deviation ** 2),
  ];
  return { ...bank, mean, variance };
}

/** CO2 to be expected as it stands, vol-%. */
export function meanOf(bank: Bank): number {
  let total = 0;
  for (let i = 0; i < bank.mean.length; i += 1) total += at(bank.weight, i) * at(bank.mean, i);
  return total / sum(bank);
}

/** The geometric mean of the gains of the sound ones, vol-% CO2 per turn; null where nothing sound is. */
export function likelyGain({ screws, weight }: Bank): number | null {
  let [total, logs] = [0, 0];
  for (let i = 0; i < weight.length; i += 1) {
    if (screws.kinds[i] !== "sound") continue;
    total += at(weight, i);
    logs += at(weight, i) * Math.log(at(screws.up, i));
  }
  return total <= 0 ? null : Math.exp(logs / total);
}

/** Probability of a kind of supposition, 0 to 1. */
export function chanceOf({ screws, weight }: Bank, kind: Supposition["kind"]): number {
  let total = 0;
  for (let i = 0; i < weight.length; i += 1) if (screws.kinds[i] === kind) total += at(weight, i);
  return total;
}

/** Probability that the screw is at its end for turns in this direction (1 towards rising CO2), 0 to 1. */
export function chanceSpent({ screws, weight }: Bank, direction: 1 | -1): number {
  const gains = direction > 0 ? screws.up : screws.down;
  let total = 0;
  for (let i = 0; i < weight.length; i += 1)
    if (screws.kinds[i] === "spent" && at(gains, i) === 0) total += at(weight, i);
  return total;
}

export function sum({ weight }: Bank): number {
  let total = 0;
  for (let i = 0; i < weight.length; i += 1) total += at(weight, i);
  return total;
}
