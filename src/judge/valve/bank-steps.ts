import { at, type Bank, chanceOf } from "./bank.ts";
import { density } from "./normal.ts";
import { moveBy } from "./supposition.ts";

/** A screw's gain is not the same all the way: a move by its gain is uncertain by this share of itself. */
const UNEVEN = 0.2;

/** At each turn old evidence on the gain counts a little less: gains change along the way. */
const MEMORY = 0.9;

/** How likely a screw is to reach its end with one turn. Our own guess. */
const SPENT = 0.01;

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
