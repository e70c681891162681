import { HAND_TURNS } from "../../../src/judge/turns.ts";
import type { Firing } from "../../../src/measure/firing.ts";
import type { Shown } from "./boiler.ts";
import { type Play, Work } from "./play.ts";
import { bandOf, type ValveSpec } from "./valve.ts";

/** How far somebody turns, turns, when CO2 is so far (vol-%, above 0) off the middle of its band. */
export type Rule = (spec: ValveSpec, screw: Firing, off: number) => number;

/** Steps of one size: a quarter of the high-fire screw, a tenth of the low-fire one (common practice, no source). */
export const smallSteps: Rule = (spec, screw) => within(spec, screw, SMALL[screw]);
const SMALL: Readonly<Record<Firing, number>> = { high: 0.25, low: 0.1 };

/** As far as the sheet's figure says; where it has none, a third of a percent a turn at high fire, two at low (as the app takes). */
export const bySheet: Rule = (spec, screw, off) => {
  const wanted = off / (spec.sheet.adjusters[screw].percentPerTurn ?? USUAL[screw]);
  const sizes = HAND_TURNS.map(({ turns }) => within(spec, screw, turns));
  const misses = sizes.map((size) => Math.abs(size - wanted));
  return sizes[misses.indexOf(Math.min(...misses))] ?? SMALL[screw];
};
const USUAL: Readonly<Record<Firing, number>> = { high: 0.33, low: 2 };

/** No more than the sheet allows. */
function within({ sheet }: ValveSpec, screw: Firing, turns: number): number {
  return Math.min(sheet.adjusters[screw].largestStepTurns, turns);
}

/** Seconds for both gas pressures, as with the app. */
const PRESSURES = 70;
const REACH = 10;
const FOLLOW = 50;
const MOST = 60;
/** vol-% CO2 that he takes off where CO is over its limit in the band. */
const LEANER = 0.2;

/**
 * A technician who goes by a rule instead of the app: the same order of work and the same waits, turning until the reading is in
 * its band, high fire rechecked after low fire was touched.
 */
export function byRule(rule: Rule, spec: ValveSpec, seed: number): Play {
  const work = new Work(spec, seed);
  const { boiler } = work;
  work.seconds = PRESSURES;
  const shown: Record<Firing, Shown> = { high: { co2: 0, co: 0 }, low: { co2: 0, co: 0 } };

  const read = (firing: Firing) => {
    if (boiler.firing !== firing) {
      boiler.goTo(firing, work.seconds);
      work.seconds += FOLLOW;
    }
    work.seconds += REACH;
    shown[firing] = boiler.read(work.seconds);
  };
  /** How far the last reading is off the middle of its band, vol-%: 0 where it is in range. CO over its limit wants it leaner. */
  const off = (firing: Firing): number => {
    const { min, max } = bandOf(spec, firing, shown.high.co2);
    const { co2, co } = shown[firing];
    if (co2 < min - 1e-9 || co2 > max + 1e-9) return (min + max) / 2 - co2;
    return co > (spec.sheet.fuels[spec.fuel]?.[firing].co?.max ?? co) ? -LEANER : 0;
  };
  /** Turns until the reading is in its band; whether anything was turned. */
  const set = (firing: Firing): boolean => {
    const before = work.adjustments;
    for (read(firing); off(firing) !== 0 && work.adjustments < MOST; read(firing)) {
      const { co2Rises } = spec.sheet.adjusters[firing];
      const way = Math.sign(off(firing)) * (co2Rises === "clockwise" ? 1 : -1);
      work.turn(firing, way * rule(spec, firing, Math.abs(off(firing))), null);
      work.seconds += spec.sheet.settleSeconds[firing];
    }
    return work.adjustments > before;
  };

  set("high");
  while (work.adjustments < MOST) {
    const isLowTouched = set("low");
    if (!isLowTouched) return work.done("in-range");
    const isHighTouched = set("high");
    // Low fire hangs on the high-fire value just read.
    if (!isHighTouched && off("low") === 0) return work.done("in-range");
  }
  return work.done("endless");
}
