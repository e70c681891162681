import type { Adjuster } from "../visit/sheet.ts";
import type { Limit } from "./judgement.ts";
import { HAND_TURNS } from "./turns.ts";
import type { Bank } from "./valve/bank.ts";
import { type Carbon, coAt } from "./valve/carbon.ts";
import { type Landing, landingOf, middleOf, moveOf, quantile } from "./valve/landing.ts";
import { readingNoise } from "./valve/noise.ts";
import { below } from "./valve/normal.ts";

/** What one step of a screw has to do. */
export interface StepTask {
  /** CO2 as last read, vol-%. */
  readonly value: number;
  /** Towards more CO2, or less. */
  readonly rise: 1 | -1;
  /** Where CO2 shall come to stand. */
  readonly band: Limit;
  readonly adjuster: Adjuster;
  readonly bank: Bank;
  /** What enriching does to CO, where it is known. */
  readonly carbon: Carbon | null;
}

/** A step: signed turns, clockwise positive, and the CO2 reading to expect after it, vol-%, to 0.1. */
export interface Step {
  readonly turns: number;
  readonly expect: { readonly min: number; readonly max: number };
}

/** How far inside a one-sided band to aim, vol-%: three times an analyser's last digit. */
const INSIDE = 0.3;

/** One case in twenty: what a step is expected to do, at the least and at the most, leaves this share out on either side. */
const RARE = 0.05;

/** A step that passes the far side has to be taken back, and frightens: it counts as so many steps more. */
const PASSED = 0.5;

/** Steps whose worth differs by less than this are equal: then the one that lands nearest the aim is taken. */
const EQUAL = 0.05;

/**
 * The step after which the fewest further ones are expected: a fraction that a hand can do, no more than the sheet's
 * largest step, and none that is expected to pass the band's far side or, when enriching, the CO limit. Null where every
 * step would.
 */
export function chooseStep(task: StepTask): Step | null {
  const { adjuster, rise, bank, value } = task;
  const noise = readingNoise(value);
  const steps = sizes(adjuster.largestStepTurns).map((size) => {
    const landing = landingOf(bank, rise * size);
    const middle = middleOf(landing);
    return {
      size,
      middle,
      miss: Math.abs(middle - aimOf(task.band)),
      cost: costOf(task, landing),
      expect: {
        min: tenth(quantile(landing, RARE, noise)),
        max: tenth(quantile(landing, 1 - RARE, noise)),
      },
    };
  });
  const inside = steps.filter(({ middle }) => keepsBand(task, tenth(middle)));
  const careful = inside.filter(
    ({ size, expect }) =>
      keepsBand(task, rise > 0 ? expect.max : expect.min) && keepsCo(task, size, 1 - RARE),
  );
  // Where even the smallest step may pass a limit at its worst, it is still the only one there is.
  const smallest = inside.slice(-1).filter(({ size }) => keepsCo(task, size, 0.5));
  const safe = careful.length > 0 ? careful : smallest;
  const least = Math.min(...safe.map(({ cost }) => cost));
  const best = safe
    .filter(({ cost }) => cost <= least + EQUAL)
    .sort((a, b) => a.miss - b.miss || a.size - b.size)[0];
  if (!best) return null;
  const clockwise = adjuster.co2Rises === "clockwise" ? 1 : -1;
  return { turns: best.size * rise * clockwise, expect: best.expect };
}

function aimOf({ min, max }: Limit): number {
  if (min !== null && max !== null) return (min + max) / 2;
  return min !== null ? min + INSIDE : (max ?? 0) - INSIDE;
}

/** The hand's fractions up to the largest step; a sheet that allows less than the smallest gets its own largest step. */
function sizes(largest: number): number[] {
  const allowed = HAND_TURNS.map(({ turns }) => turns).filter((turns) => turns <= largest + 1e-9);
  return allowed.length > 0 ? allowed : [largest];
}

/** Steps to be expected after this one. */
function costOf({ band, rise, adjuster, value }: StepTask, landing: Landing): number {
  const noise = readingNoise(value) ** 2;
  const { min, max } = band;
  return landing.reduce((sum, { weight, mean, variance, up }) => {
    const under = min === null ? 0 : below(min, mean, variance + noise);
    const over = max === null ? 0 : 1 - below(max, mean, variance + noise);
    const [short, past] = rise > 0 ? [under, over] : [over, under];
    const gap = rise > 0 ? (min ?? mean) - mean : mean - (max ?? mean);
    const further = Math.max(1, Math.ceil(gap / (up * adjuster.largestStepTurns)));
    return sum + weight * (short * further + past * (1 + PASSED));
  }, 0);
}

/** Whether a CO2 is inside the band's far side. */
function keepsBand({ band: { min, max }, rise }: StepTask, co2: number): boolean {
  return rise > 0 ? max === null || co2 <= max : min === null || co2 >= min;
}

/** Whether a step keeps the CO limit with this probability. */
function keepsCo({ bank, rise, carbon, value }: StepTask, size: number, chance: number): boolean {
  if (carbon === null || rise < 0) return true;
  return coAt(carbon, value + quantile(moveOf(bank, size), chance)) <= carbon.max;
}

function tenth(value: number): number {
  return Math.round(value * 10) / 10;
}
