import type { Firing } from "../measure/firing.ts";
import { spokenNumber } from "../measure/show.ts";

/** The turns a hand can do, largest first, and how they are said. */
export const HAND_TURNS: readonly { readonly turns: number; readonly spoken: string }[] = [
  { turns: 1, spoken: "one full turn" },
  { turns: 3 / 4, spoken: "three quarters of a turn" },
  { turns: 1 / 2, spoken: "half a turn" },
  { turns: 1 / 4, spoken: "a quarter turn" },
  { turns: 1 / 8, spoken: "an eighth of a turn" },
  { turns: 1 / 10, spoken: "a tenth of a turn" },
  { turns: 1 / 12, spoken: "a twelfth of a turn" },
];

/** How far, without direction: "half a turn"; a count that is no common fraction is said as a decimal. */
export function spokenAmount(turns: number): string {
  const size = Math.abs(turns);
  const named = HAND_TURNS.find((each) => Math.abs(each.turns - size) < 0.002);
  return named ? named.spoken : `${spokenNumber(Number(size.toFixed(3)))} turns`;
}

/** Signed turns with their direction: "half a turn clockwise". */
export function spokenTurns(turns: number): string {
  return `${spokenAmount(turns)} ${turns < 0 ? "counterclockwise" : "clockwise"}`;
}

export function spokenScrew(adjuster: Firing): string {
  return `${adjuster} fire screw`;
}

/** Whole seconds, rounded up so that a wait is never cut short: "sixty seconds". */
export function spokenSeconds(seconds: number): string {
  const whole = Math.ceil(seconds);
  return `${spokenNumber(whole)} ${whole === 1 ? "second" : "seconds"}`;
}
