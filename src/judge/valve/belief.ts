import type { Firing } from "../../measure/firing.ts";
import { settled } from "../current.ts";
import type { Situation } from "../situation.ts";
import { afterPush, afterReading, afterTurn, type Bank, startBank } from "./bank.ts";
import { type Coupling, couplingOf } from "./coupling.ts";
import { eventsAfter, towardsRise } from "./events.ts";
import { readingNoise } from "./noise.ts";
import { priorOf } from "./prior.ts";

/** What a visit's own readings and turns say about the valve at one firing. */
export interface Belief {
  readonly bank: Bank;
  /** Likely gain of the firing's own screw, vol-% CO2 per turn towards rising CO2. */
  readonly gain: number;
  /** Settled readings since the last turn of either screw. */
  readonly readings: number;
  /** Turns of the firing's own screw so far. */
  readonly touches: number;
}

/** Whether what the last turn did was read more than once. */
export function isConfirmed({ readings }: Belief): boolean {
  return readings > 1;
}

/** How far low fire follows the high-fire screw: about as far as high fire itself, give or take this share. */
const FOLLOWS = 0.5;

/** Wander of valve and analyser from one reading to the next, vol-% CO2. */
const DRIFT = 0.02;

/** What is believed at a firing; null without a sheet or a settled CO2 reading. A pure replay of the visit. */
export function beliefOf(s: Situation, firing: Firing): Belief | null {
  if (!s.sheet) return null;
  const readings = settled(s, "co2", firing);
  const [first] = readings;
  if (!first) return null;
  const prior = priorOf(firing, s.sheet.adjusters[firing]);
  const followed: Coupling =
    firing === "high" ? couplingOf(s) : { likely: highGain(s), deviation: FOLLOWS * highGain(s) };

  const start: Bank = startBank(prior, first.reading.value, readingNoise(first.reading.value));
  let since = 1;
  let touches = 0;
  const bank = eventsAfter(s, first, readings).reduce((now, event) => {
    if ("reading" in event) {
      since += 1;
      const { value } = event.reading;
      return afterReading(afterPush(now, 0, DRIFT), value, readingNoise(value));
    }
    since = 0;
    const turns = towardsRise(s, event);
    if (event.adjuster !== firing) {
      return afterPush(now, followed.likely * turns, followed.deviation * Math.abs(turns));
    }
    touches += 1;
    return afterTurn(now, turns);
  }, start);
  return { bank, gain: likelyGain(bank) ?? prior.gain, readings: since, touches };
}

function highGain(s: Situation): number {
  const belief = beliefOf(s, "high");
  if (belief) return belief.gain;
  return s.sheet ? priorOf("high", s.sheet.adjusters.high).gain : 0;
}

/** The geometric mean over what is held possible; null where nothing sound is. */
function likelyGain(bank: Bank): number | null {
  const sound = bank.filter(({ kind }) => kind === "sound");
  const total = sound.reduce((sum, { weight }) => sum + weight, 0);
  if (total <= 0) return null;
  return Math.exp(sound.reduce((sum, { weight, up }) => sum + weight * Math.log(up), 0) / total);
}
