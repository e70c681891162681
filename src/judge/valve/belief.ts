import type { Firing } from "../../measure/firing.ts";
import type { Adjuster } from "../../visit/sheet.ts";
import type { StandingAdjustment, StandingReading } from "../../visit/state.ts";
import { settled } from "../current.ts";
import type { Situation } from "../situation.ts";
import { type Bank, likelyGain, meanOf, placedAt } from "./bank.ts";
import { afterPush, afterReading, afterTurn } from "./bank-steps.ts";
import { type Coupling, couplingOf } from "./coupling.ts";
import { eventsAfter, towardsRise } from "./events.ts";
import { type Fault, faultOf } from "./fault.ts";
import { readingNoise } from "./noise.ts";
import { priorOf } from "./prior.ts";
import { type Prior, startBank } from "./start-bank.ts";

/** What a visit's own readings and turns say about the valve at one firing. */
export interface Belief {
  readonly bank: Bank;
  /** Likely gain of the firing's own screw, vol-% CO2 per turn towards rising CO2. */
  readonly gain: number;
  /** Settled readings since the last turn of either screw. */
  readonly readings: number;
  /** Turns of the firing's own screw so far. */
  readonly touches: number;
  /** What is wrong with the screw, for turns in the direction of the last one; null where it is likely sound. */
  readonly fault: Fault | null;
  /** Direction of the last own turn: 1 towards rising CO2, -1 away, 0 before there was one. */
  readonly last: number;
}

/** Whether what the last turn did was read more than once. */
export function isConfirmed({ readings }: Belief): boolean {
  return readings > 1;
}

/** Whether the screw's fault matters for a turn in this direction: a valve at its end can still be turned back. */
export function hinders({ fault, last }: Belief, direction: 1 | -1): boolean {
  return fault !== null && (fault.kind !== "spent" || last === direction);
}

/** How far low fire follows the high-fire screw: about as far as high fire itself, give or take this share. */
const FOLLOWS = 0.5;

/** Wander of valve and analyser from one reading to the next, vol-% CO2. */
const DRIFT = 0.02;

/** What was worked out for a situation: several rules ask for the same belief. */
const known = new WeakMap<Situation, Map<Firing, Belief | null>>();

/** What is believed at a firing; null without a sheet or a settled CO2 reading. A pure replay of the visit. */
export function beliefOf(s: Situation, firing: Firing): Belief | null {
  const beliefs = known.get(s) ?? new Map<Firing, Belief | null>();
  known.set(s, beliefs);
  const found = beliefs.get(firing);
  if (found !== undefined) return found;
  const belief = replayed(s, firing);
  beliefs.set(firing, belief);
  return belief;
}

function replayed(s: Situation, firing: Firing): Belief | null {
  if (!s.sheet) return null;
  const readings = settled(s, "co2", firing);
  const [first] = readings;
  if (!first) return null;
  const prior = priorOf(firing, s.sheet.adjusters[firing]);
  const followed: Coupling =
    firing === "high"
      ? rounded(couplingOf(s))
      : rounded({ likely: highGain(s), deviation: FOLLOWS * highGain(s) });

  const { start, events, own } = recent(eventsAfter(s, first, readings), first, firing);
  const { value } = start.reading;
  const steps = events.map((event): Step => {
    if ("reading" in event) {
      const { value } = event.reading;
      return { event: `read ${value}`, next: (before) => readAs(before, value) };
    }
    const turns = towardsRise(s, event);
    if (event.adjuster === firing)
      return { event: `turn ${turns}`, next: (before) => turnedBy(before, turns) };
    const by = followed.likely * turns;
    const deviation = followed.deviation * Math.abs(turns);
    const push = (before: Replay) => unreadYet(before, afterPush(before.bank, by, deviation));
    return { event: `push ${by} ${deviation}`, next: push };
  });
  const belief = gone(s.sheet.adjusters[firing], `${firing} ${value}`, () => begun(prior, value), steps);
  return { ...belief, touches: own + belief.touches, gain: likelyGain(belief.bank) ?? prior.gain };
}

/** In steps of a tenth of itself: it is no better known, and as long as it stays the same a replay is found again. */
function rounded({ likely, deviation }: Coupling): Coupling {
  const step = (value: number) =>
    value === 0 ? 0 : Math.sign(value) * Math.exp(Math.round(Math.log(Math.abs(value)) / 0.1) * 0.1);
  return { likely: step(likely), deviation: step(deviation) };
}

type Event = StandingReading | StandingAdjustment;

/** At least so many readings and turns are replayed where there are more, and at most twice as many. */
const REPLAYED = 32;

/**
 * The part of a long visit that is replayed, the reading that it begins with, and how often the firing's own screw was turned
 * before. What was seen so long ago has faded (`MEMORY` in `bank`). The beginning moves in leaps, so that what follows it is
 * found again from one utterance to the next.
 */
function recent(events: readonly Event[], first: StandingReading, firing: Firing) {
  const leap = Math.max(0, Math.floor(events.length / REPLAYED) - 1) * REPLAYED;
  const at = leap === 0 ? -1 : events.findIndex((event, place) => place >= leap && "reading" in event);
  const start = events[at];
  if (!start || !("reading" in start)) return { start: first, events, own: 0 };
  const own = events
    .slice(0, at)
    .filter((event) => !("reading" in event) && event.adjuster === firing).length;
  return { start, events: events.slice(at + 1), own };
}

/** One event of a replay: equal text means equal effect. */
interface Step {
  readonly event: string;
  readonly next: (before: Replay) => Replay;
}

/** A replay that was gone through with a screw. Only its end is kept: a bank has hundreds of suppositions. */
interface Gone {
  readonly events: readonly string[];
  readonly end: Replay;
}

/** So many are kept of each screw: a long visit is gone through from its beginning while it goes on at its end. */
const KEPT = 4;

/** The last ones first. */
const ends = new WeakMap<Adjuster, readonly Gone[]>();

/** A replay from its beginning. An utterance mostly adds to the visit: then it goes on from where an earlier one ended. */
function gone(screw: Adjuster, start: string, begin: () => Replay, steps: readonly Step[]): Replay {
  const events = [start, ...steps.map(({ event }) => event)];
  const kept = ends.get(screw) ?? [];
  const [before] = kept
    .filter((each) => each.events.every((event, place) => event === events[place]))
    .sort((a, b) => b.events.length - a.events.length);
  const rest = before ? steps.slice(before.events.length - 1) : steps;
  const end = rest.reduce((so, { next }) => next(so), before?.end ?? begin());
  ends.set(screw, [{ events, end }, ...kept.filter((each) => each !== before)].slice(0, KEPT));
  return end;
}

function turnedBy(before: Replay, turns: number): Replay {
  return {
    ...unreadYet(before, afterTurn(before.bank, turns)),
    touches: before.touches + 1,
    last: Math.sign(turns),
    ownTurn: true,
  };
}

function unreadYet(before: Replay, bank: Bank): Replay {
  return { ...before, bank, unread: bank, readings: 0 };
}

/** vol-% CO2 by which nothing known moves a firing whose own screw was not turned. */
const UNEXPLAINED = 0.3;

/** vol-% CO2 between two readings of one setting that no noise explains: the first one was a slip, or had not settled. */
export const CONTRADICTED = 0.5;

function readAs(before: Replay, value: number): Replay {
  const noise = readingNoise(value);
  const far = Math.abs(value - meanOf(before.bank));
  if (before.readings > 0 && far > CONTRADICTED) {
    return read({ ...before, readings: 0, fault: null }, settingRead(before.unread, value, noise));
  }
  // On coming back from the other firing, a large change is no mistake of reading: that screw did more than was thought.
  if (before.readings === 0 && !before.ownTurn && far > UNEXPLAINED) {
    return read(before, placedAt(before.bank, value, noise));
  }
  return read(before, settingRead(before.bank, value, noise));
}

function settingRead(bank: Bank, value: number, noise: number): Bank {
  return afterReading(bank, value, noise, DRIFT);
}

type Replay = Omit<Belief, "gain"> & {
  /** Whether the firing's own screw was turned since the last reading. */
  readonly ownTurn: boolean;
  /** What was believed at this setting before it was read. */
  readonly unread: Bank;
};

/** Before the first reading nothing is known of where CO2 stands. */
function begun(prior: Prior, value: number): Replay {
  const bank = startBank(prior, value, readingNoise(value));
  return {
    bank,
    unread: afterPush(bank, 0, ANYWHERE),
    readings: 1,
    touches: 0,
    fault: null,
    last: 0,
    ownTurn: false,
  };
}

/** vol-%: wider than all that CO2 can be. */
const ANYWHERE = 20;

function read(before: Replay, bank: Bank): Replay {
  const now = { ...before, bank, readings: before.readings + 1, ownTurn: false };
  if (now.last === 0) return now;
  const found = faultOf(bank, now.last > 0 ? 1 : -1, now.readings > 1);
  // What was sure enough to stop stays so until it is no longer even likely: one reading's noise takes nothing back.
  const stays = before.fault?.sure && found && !found.sure;
  return { ...now, fault: stays ? { ...found, sure: true } : found };
}

function highGain(s: Situation): number {
  const belief = beliefOf(s, "high");
  if (belief) return belief.gain;
  return s.sheet ? priorOf("high", s.sheet.adjusters.high).gain : 0;
}
