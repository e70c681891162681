/**
 * One supposition about a screw and the CO2 that it sets. All turns are counted in the direction in which the sheet
 * says that CO2 rises; a level is a normal distribution, in vol-% CO2.
 */
export interface Supposition {
  /** Sound; does nothing; moves CO2 the other way; or does nothing further in one direction (at its end). */
  readonly kind: "sound" | "dead" | "reversed" | "spent";
  /** vol-% CO2 per turn. */
  readonly up: number;
  readonly down: number;
  /** Turns lost on a reversal. */
  readonly play: number;
  /** Of the play, what a rising turn has still to take up; a falling one has the rest. */
  readonly slack: number;
  readonly mean: number;
  readonly variance: number;
  /** Probability, before it is divided by the sum of all. */
  readonly weight: number;
}

/** By how much a turn moves CO2, vol-%: play first, then the gain. */
export function moveBy(up: number, down: number, play: number, slack: number, turns: number): number {
  if (turns >= 0) return up * Math.max(0, turns - slack);
  return -down * Math.max(0, -turns - (play - slack));
}
