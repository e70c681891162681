import { type Bank, chanceOf, placedAt, suppositionsOf } from "./bank.ts";
import { turned } from "./bank-steps.ts";
import { below } from "./normal.ts";
import type { Supposition } from "./supposition.ts";

/** Where CO2 may come to stand: normal distributions with weights that sum to one. */
export type Landing = readonly Pick<Supposition, "mean" | "variance" | "weight" | "up" | "down">[];

/** Where CO2 stands after a turn (towards rising CO2), if the screw is sound. */
export function landingOf(bank: Bank, turns: number): Landing {
  const total = chanceOf(bank, "sound");
  return suppositionsOf(turned(bank, turns)).flatMap((s) =>
    s.kind === "sound" ? [{ ...s, weight: s.weight / total }] : [],
  );
}

/** The move alone that a turn makes, without the doubt about where CO2 stands now. */
export function moveOf(bank: Bank, turns: number): Landing {
  return landingOf(placedAt(bank, 0, 0), turns);
}

/** The value that it is as likely above as below, vol-%. */
export const middleOf = (landing: Landing): number => quantile(landing, 0.5);

/** Probability that it is below a value, vol-%; `noise` is the standard deviation of a reading of it, 0 for the truth. */
export function chanceBelow(landing: Landing, value: number, noise = 0): number {
  return landing.reduce((sum, { weight, mean, variance }) => {
    return sum + weight * below(value, mean, variance + noise ** 2);
  }, 0);
}

/** The value below which it is with this probability, vol-%, to a thousandth. */
export function quantile(landing: Landing, share: number, noise = 0): number {
  let [low, high] = [-25, 45];
  while (high - low > 0.001) {
    const middle = (low + high) / 2;
    if (chanceBelow(landing, middle, noise) < share) low = middle;
    else high = middle;
  }
  return (low + high) / 2;
}
