import type { Firing } from "../../../src/measure/firing.ts";
import { type Play, Work } from "./play.ts";
import { bandOf, type ValveSpec } from "./valve.ts";

/** His steps, turns: a quarter of the high-fire screw, a tenth of the low-fire one (common practice, no source). */
const STEP: Readonly<Record<Firing, number>> = { high: 0.25, low: 0.1 };

const REACH = 10;
const FOLLOW = 50;
const MOST = 60;

/**
 * A technician who works by rule of thumb: the same order of work and the same waits, small steps of one size until the reading
 * is in its band, high fire rechecked after low fire was touched.
 */
export function byRuleOfThumb(spec: ValveSpec, seed: number): Play {
  const work = new Work(spec, seed);
  const { boiler } = work;
  const { sheet } = spec;
  let highRead = 0;

  /** Turns until the reading is in its band; whether anything was turned. */
  const set = (firing: Firing): boolean => {
    if (boiler.firing !== firing) {
      boiler.goTo(firing, work.seconds);
      work.seconds += FOLLOW;
    }
    const before = work.adjustments;
    for (;;) {
      work.seconds += REACH;
      const { co2 } = boiler.read(work.seconds);
      if (firing === "high") highRead = co2;
      const { min, max } = bandOf(spec, firing, highRead);
      const way = co2 < min - 1e-9 ? 1 : co2 > max + 1e-9 ? -1 : 0;
      if (way === 0 || work.adjustments >= MOST) return work.adjustments > before;
      const { co2Rises, largestStepTurns } = sheet.adjusters[firing];
      const step = Math.min(STEP[firing], largestStepTurns);
      work.turn(firing, way * step * (co2Rises === "clockwise" ? 1 : -1), null);
      work.seconds += sheet.settleSeconds[firing];
    }
  };

  set("high");
  while (work.adjustments < MOST) {
    const lowTouched = set("low");
    if (!lowTouched) return work.done("in-range");
    const highTouched = set("high");
    if (!highTouched && inBand()) return work.done("in-range");
  }
  return work.done("endless");

  /** Whether low fire, as it was left, still fits the rechecked high-fire value. */
  function inBand(): boolean {
    const { min, max } = bandOf(spec, "low", highRead);
    const low = Math.round(boiler.settled.low * 10) / 10;
    return low >= min - 1e-9 && low <= max + 1e-9;
  }
}
