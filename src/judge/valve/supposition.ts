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

/** A screw's gain is not the same all the way: a move by its gain is uncertain by this share of itself. */
const UNEVEN = 0.2;

/** What a turn does to a supposition: play first, then the gain. */
export function turned(s: Supposition, turns: number): Supposition {
  if (turns >= 0) {
    const acting = Math.max(0, turns - s.slack);
    return moved(s, s.up * acting, Math.max(0, s.slack - turns));
  }
  const acting = Math.max(0, -turns - (s.play - s.slack));
  return moved(s, -s.down * acting, Math.min(s.play, s.slack - turns));
}

function moved(s: Supposition, by: number, slack: number): Supposition {
  return as(s, s.mean + by, s.variance + (UNEVEN * by) ** 2, s.weight, slack);
}

/** A push from elsewhere: the other screw, or drift. `by` and its standard deviation in vol-% CO2. */
export function pushed(s: Supposition, by: number, deviation: number): Supposition {
  return as(s, s.mean + by, s.variance + deviation ** 2);
}

/** The same supposition with another level. Written out field by field: there are hundreds, and a spread is slow. */
export function as(
  { kind, up, down, play, slack, weight }: Supposition,
  mean: number,
  variance: number,
  newWeight = weight,
  newSlack = slack,
): Supposition {
  return { kind, up, down, play, slack: newSlack, mean, variance, weight: newWeight };
}
