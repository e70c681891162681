import { type Bank, bankOf, placedAt } from "./bank.ts";
import { density } from "./normal.ts";
import type { Supposition } from "./supposition.ts";

/** What is thought of a screw before anything was turned: gain in vol-% CO2 per turn, and how far it may differ. */
export interface Prior {
  readonly gain: number;
  /** Standard deviation of the gain's natural logarithm. */
  readonly spread: number;
}

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

/** How likely a screw is to do nothing, or to be the wrong way round. Our own guesses. */
const DEAD = 0.03;
const REVERSED = 0.01;

/** The other firing's screw, turned by mistake, moves CO2 a little: up to this share of what the right one would do. */
const FAINT = [0, 0.12, 0.25] as const;

/** The suppositions before the first reading, which is `value` with a standard deviation. */
export function startBank(prior: Prior, value: number, deviation: number): Bank {
  const key = `${prior.gain} ${prior.spread}`;
  const unread = known.get(key) ?? unreadBank(prior);
  // There are as many as there are sheets in use.
  if (known.size > MOST_KNOWN) known.clear();
  known.set(key, unread);
  return placedAt(unread, value, deviation);
}

/** By gain and spread: making one takes longer than a replay. */
const known = new Map<string, Bank>();
const MOST_KNOWN = 32;

/** What is held possible of a screw, and how likely. */
function unreadBank({ gain, spread }: Prior): Bank {
  const level = { mean: 0, variance: 0 };
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
  return bankOf([
    ...scaled(sound, 1 - DEAD - REVERSED),
    ...scaled(dead, DEAD),
    ...scaled(reversed, REVERSED),
  ]);
}

/** Where in its play a screw stands is not known before it was turned. */
function slacksOf(play: number): readonly number[] {
  return play === 0 ? [0] : [0, play / 2, play];
}

/** Suppositions with weights that sum to this. */
function scaled(suppositions: readonly Supposition[], to: number): Supposition[] {
  const total = suppositions.reduce((all, { weight }) => all + weight, 0);
  return suppositions.map((s) => ({ ...s, weight: (s.weight / total) * to }));
}
