import { density } from "./normal.ts";
import { as, pushed, type Supposition, turned } from "./supposition.ts";

/** What is thought of a screw before anything was turned: gain in vol-% CO2 per turn, and how far it may differ. */
export interface Prior {
  readonly gain: number;
  /** Standard deviation of the gain's natural logarithm. */
  readonly spread: number;
}

/** Rival suppositions about one screw; at any time their weights sum to one. */
export type Bank = readonly Supposition[];

/** Gains that are held possible, as standard deviations of the logarithm from the likely one. */
const STEPS = [-2.6, -2.2, -1.8, -1.4, -1, -0.6, -0.3, 0, 0.3, 0.6, 1, 1.4, 1.8, 2.2, 2.6] as const;

/** Play in turns, and how likely it is. Our own cautious guess: a few degrees are usual, a fifth of a turn is rare. */
const PLAYS: readonly (readonly [turns: number, weight: number])[] = [
  [0, 0.3],
  [0.02, 0.3],
  [0.05, 0.2],
  [0.1, 0.15],
  [0.2, 0.05],
];

/** How likely a screw is to do nothing, to be the wrong way round, or to reach its end with one turn. Our own guesses. */
const DEAD = 0.03;
const REVERSED = 0.01;
const SPENT = 0.01;

/** The other firing's screw, turned by mistake, moves CO2 a little: up to this share of what the right one would do. */
const FAINT = [0, 0.12, 0.25] as const;

/** At each turn old evidence on the gain counts a little less: gains change along the way. */
const MEMORY = 0.9;

/** The suppositions before the first reading, which is `value` with a standard deviation. */
export function startBank({ gain, spread }: Prior, value: number, deviation: number): Bank {
  const level = { mean: value, variance: deviation ** 2 };
  const gains = STEPS.map((z) => ({ gain: gain * Math.exp(spread * z), weight: density(z, 0, 1) }));
  const sound = gains.flatMap((g) =>
    PLAYS.flatMap(([play, likely]) =>
      slacksOf(play).map((slack): Supposition => {
        const weight = (g.weight * likely) / slacksOf(play).length;
        return { ...level, kind: "sound", up: g.gain, down: g.gain, play, slack, weight };
      }),
    ),
  );
  const reversed = gains.map(
    (g): Supposition => ({
      ...level,
      kind: "reversed",
      up: -g.gain,
      down: -g.gain,
      play: 0,
      slack: 0,
      weight: g.weight,
    }),
  );
  const dead = FAINT.map((share): Supposition => {
    const faint = share * gain;
    return { ...level, kind: "dead", up: faint, down: faint, play: 0, slack: 0, weight: 1 };
  });
  return [...scaled(sound, 1 - DEAD - REVERSED), ...scaled(dead, DEAD), ...scaled(reversed, REVERSED)];
}

/** Where in its play a screw stands is not known before it was turned. */
function slacksOf(play: number): readonly number[] {
  return play === 0 ? [0] : [0, play / 2, play];
}

/** After a turn of this screw, in turns towards rising CO2. */
export function afterTurn(bank: Bank, turns: number): Bank {
  const sound = bank.filter(({ kind }) => kind === "sound");
  const share = sum(sound);
  if (share <= 0) return bank.map((s) => turned(s, turns));
  const fading = scaled(
    sound.map((s) => as(s, s.mean, s.variance, (s.weight / share) ** MEMORY)),
    share * (1 - SPENT),
  );
  const others = bank.filter(({ kind }) => kind !== "sound");
  return [...[...fading, ...others].map((s) => turned(s, turns)), spent(sound, share, turns)];
}

/** The supposition that with this turn the screw has come to its end. */
function spent(sound: Bank, share: number, turns: number): Supposition {
  const mean = sound.reduce((total, s) => total + s.weight * s.mean, 0) / share;
  const variance =
    sound.reduce((total, s) => total + s.weight * (s.variance + (s.mean - mean) ** 2), 0) / share;
  const gain = sound.reduce((total, s) => total + s.weight * s.up, 0) / share;
  const [up, down] = turns >= 0 ? [0, gain] : [gain, 0];
  return { kind: "spent", up, down, play: 0, slack: 0, mean, variance, weight: share * SPENT };
}

/** After a push from elsewhere, vol-% CO2 with its standard deviation. */
export function afterPush(bank: Bank, by: number, deviation: number): Bank {
  return bank.map((s) => pushed(s, by, deviation));
}

/**
 * After a settled reading, before which CO2 may have drifted by a standard deviation: a Kalman step in each supposition, and
 * its weight by how well it foresaw the value. In one pass, since a replay takes hundreds of them.
 */
export function afterReading(bank: Bank, value: number, deviation: number, drift = 0): Bank {
  const noise = deviation ** 2;
  let total = 0;
  const seen = bank.map((s): Weighed => {
    const before = s.variance + drift ** 2;
    const foreseen = before + noise;
    const kept = before / foreseen;
    // A floor, so that one wild reading leaves suppositions to go on with.
    const weight = s.weight * (density(value, s.mean, foreseen) + 1e-9);
    total += weight;
    return as(s, s.mean + kept * (value - s.mean), before * (1 - kept), weight);
  });
  if (total > 0) for (const s of seen) s.weight /= total;
  return seen;
}

/** A supposition in the making. */
type Weighed = Omit<Supposition, "weight"> & { weight: number };

/** After a reading that follows on something unknown: the screws stay what they are thought to be, CO2 is where it is read. */
export function placedAt(bank: Bank, value: number, deviation: number): Bank {
  return bank.map((s) => as(s, value, deviation ** 2));
}

/** CO2 to be expected as it stands, vol-%. */
export function meanOf(bank: Bank): number {
  return bank.reduce((total, { weight, mean }) => total + weight * mean, 0) / sum(bank);
}

/** Probability of a kind of supposition, 0 to 1. */
export function chanceOf(bank: Bank, kind: Supposition["kind"]): number {
  return sum(bank.filter((s) => s.kind === kind));
}

export function sum(bank: Bank): number {
  return bank.reduce((total, { weight }) => total + weight, 0);
}

function scaled(bank: Bank, to: number): Bank {
  const total = sum(bank);
  return total > 0 ? bank.map((s) => as(s, s.mean, s.variance, (s.weight / total) * to)) : bank;
}
