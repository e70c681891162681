import { density } from "./normal.ts";
import { moveBy, type Supposition } from "./supposition.ts";

/** What is thought of a screw before anything was turned: gain in vol-% CO2 per turn, and how far it may differ. */
export interface Prior {
  readonly gain: number;
  /** Standard deviation of the gain's natural logarithm. */
  readonly spread: number;
}

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
function at(field: Float64Array, place: number): number {
  return field[place] ?? Number.NaN;
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

/** How likely a screw is to do nothing, to be the wrong way round, or to reach its end with one turn. Our own guesses. */
const DEAD = 0.03;
const REVERSED = 0.01;
const SPENT = 0.01;

/** The other firing's screw, turned by mistake, moves CO2 a little: up to this share of what the right one would do. */
const FAINT = [0, 0.12, 0.25] as const;

/** A screw's gain is not the same all the way: a move by its gain is uncertain by this share of itself. */
const UNEVEN = 0.2;

/** At each turn old evidence on the gain counts a little less: gains change along the way. */
const MEMORY = 0.9;

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

/** After a turn of this screw, in turns towards rising CO2. */
export function afterTurn(bank: Bank, turns: number): Bank {
  const share = chanceOf(bank, "sound");
  if (share <= 0) return turned(bank, turns);
  return withSpent(turned({ ...bank, weight: faded(bank, share) }, turns), bank, share, turns);
}

/** Every supposition's screw turned, in turns towards rising CO2. */
export function turned(bank: Bank, turns: number): Bank {
  const { up, down, play } = bank.screws;
  const [slack, mean, variance] = [bank.slack.slice(), bank.mean.slice(), bank.variance.slice()];
  for (let i = 0; i < slack.length; i += 1) {
    const left = at(bank.slack, i);
    const by = moveBy(at(up, i), at(down, i), at(play, i), left, turns);
    slack[i] = turns >= 0 ? Math.max(0, left - turns) : Math.min(at(play, i), left - turns);
    mean[i] = at(mean, i) + by;
    variance[i] = at(variance, i) + (UNEVEN * by) ** 2;
  }
  return { ...bank, slack, mean, variance };
}

/** The weights with the evidence on the sound ones, whose share this is, counting a little less; some is left for one that is spent. */
function faded({ screws, weight }: Bank, share: number): Float64Array {
  const fading = weight.slice();
  let total = 0;
  for (let i = 0; i < fading.length; i += 1) {
    if (screws.kinds[i] !== "sound") continue;
    fading[i] = (at(weight, i) / share) ** MEMORY;
    total += at(fading, i);
  }
  if (total > 0)
    for (let i = 0; i < fading.length; i += 1)
      if (screws.kinds[i] === "sound") fading[i] = (at(fading, i) / total) * (share * (1 - SPENT));
  return fading;
}

/** With the supposition that the turn has brought the screw to its end: what the sound ones thought `before` it, whose share this is. */
function withSpent(bank: Bank, before: Bank, share: number, turns: number): Bank {
  const { kinds, up, down, play } = bank.screws;
  let [sumOfMeans, sumOfGains] = [0, 0];
  for (let i = 0; i < kinds.length; i += 1) {
    if (kinds[i] !== "sound") continue;
    sumOfMeans += at(before.weight, i) * at(before.mean, i);
    sumOfGains += at(before.weight, i) * at(up, i);
  }
  const [mean, gain] = [sumOfMeans / share, sumOfGains / share];
  let spread = 0;
  for (let i = 0; i < kinds.length; i += 1)
    if (kinds[i] === "sound")
      spread += at(before.weight, i) * (at(before.variance, i) + (at(before.mean, i) - mean) ** 2);
  return {
    screws: {
      kinds: [...kinds, "spent"],
      up: longer(up, turns >= 0 ? 0 : gain),
      down: longer(down, turns >= 0 ? gain : 0),
      play: longer(play, 0),
    },
    slack: longer(bank.slack, 0),
    mean: longer(bank.mean, mean),
    variance: longer(bank.variance, spread / share),
    weight: longer(bank.weight, share * SPENT),
  };
}

function longer(field: Float64Array, last: number): Float64Array {
  const all = new Float64Array(field.length + 1);
  all.set(field);
  all[field.length] = last;
  return all;
}

/** After a push from elsewhere (the other screw, or drift), vol-% CO2 with its standard deviation. */
export function afterPush(bank: Bank, by: number, deviation: number): Bank {
  const [mean, variance] = [bank.mean.slice(), bank.variance.slice()];
  const more = deviation ** 2;
  for (let i = 0; i < mean.length; i += 1) {
    mean[i] = at(mean, i) + by;
    variance[i] = at(variance, i) + more;
  }
  return { ...bank, mean, variance };
}

/**
 * After a settled reading, before which CO2 may have drifted by a standard deviation: a Kalman step in each supposition, and
 * its weight by how well it foresaw the value.
 */
export function afterReading(bank: Bank, value: number, deviation: number, drift = 0): Bank {
  const [mean, variance, weight] = [bank.mean.slice(), bank.variance.slice(), bank.weight.slice()];
  const noise = deviation ** 2;
  const drifted = drift ** 2;
  let total = 0;
  for (let i = 0; i < mean.length; i += 1) {
    const before = at(variance, i) + drifted;
    const foreseen = before + noise;
    const kept = before / foreseen;
    const likely = at(mean, i);
    // A floor, so that one wild reading leaves suppositions to go on with.
    const weighed = at(weight, i) * (density(value, likely, foreseen) + 1e-9);
    total += weighed;
    mean[i] = likely + kept * (value - likely);
    variance[i] = before * (1 - kept);
    weight[i] = weighed;
  }
  if (total > 0) for (let i = 0; i < weight.length; i += 1) weight[i] = at(weight, i) / total;
  return { ...bank, mean, variance, weight };
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

/** Suppositions with weights that sum to this. */
function scaled(suppositions: readonly Supposition[], to: number): Supposition[] {
  const total = suppositions.reduce((all, { weight }) => all + weight, 0);
  return suppositions.map((s) => ({ ...s, weight: (s.weight / total) * to }));
}
