import type { Adjuster } from "../visit/sheet.ts";
import type { Limit } from "./judgement.ts";
import type { Response } from "./response.ts";
import { HAND_TURNS } from "./turns.ts";

/** What one step of a screw has to do. */
export interface StepTask {
  /** CO2 now, vol-%, outside `band`. */
  readonly value: number;
  readonly band: Limit;
  readonly adjuster: Adjuster;
  readonly response: Response;
  /** CO now and its limit, ppm, where both are known. */
  readonly co: { readonly value: number; readonly max: number } | null;
}

/** A step: signed turns, clockwise positive, and the CO2 to expect after it, vol-%, to 0.1. */
export interface Step {
  readonly turns: number;
  readonly expect: { readonly min: number; readonly max: number };
}

/** How far inside a one-sided band to aim, vol-%: three times an analyser's last digit. */
const INSIDE = 0.3;

/**
 * Enriching by this much (vol-% CO2) is taken to double the CO. A cautious guess without source, until the visit's
 * own readings say better.
 */
const CO_DOUBLES_PER = 0.5;

/**
 * The step that is expected to end nearest to the middle of the band: a fraction that a hand can do, no more than the
 * sheet's largest step, and none whose expected end lies beyond the band's far side or, when enriching, beyond the CO
 * limit. Null where every step would.
 */
export function chooseStep(task: StepTask): Step | null {
  const { value, adjuster, response } = task;
  const aim = aimOf(task.band);
  if (aim === null || aim === value) return null;
  const rise = aim > value ? 1 : -1;
  const safe = sizes(adjuster.largestStepTurns).filter((size) => isSafe(task, rise, size));
  const miss = (size: number) => Math.abs(value + rise * size * response.likely - aim);
  const [first, ...rest] = safe;
  if (first === undefined) return null;
  // Sizes come largest first; of two that miss by the same, the smaller is taken.
  const size = rest.reduce((best, each) => (miss(each) <= miss(best) ? each : best), first);
  const near = tenth(value + rise * size * response.least);
  const far = tenth(value + rise * size * response.most);
  return {
    turns: size * rise * (adjuster.co2Rises === "clockwise" ? 1 : -1),
    expect: { min: Math.min(near, far), max: Math.max(near, far) },
  };
}

function aimOf({ min, max }: Limit): number | null {
  if (min !== null && max !== null) return (min + max) / 2;
  if (min !== null) return min + INSIDE;
  return max === null ? null : max - INSIDE;
}

/** The hand's fractions up to the largest step; a sheet that allows less than the smallest gets its own largest step. */
function sizes(largest: number): number[] {
  const allowed = HAND_TURNS.map(({ turns }) => turns).filter((turns) => turns <= largest + 1e-9);
  return allowed.length > 0 ? allowed : [largest];
}

function isSafe({ value, band, response, co }: StepTask, rise: 1 | -1, size: number): boolean {
  const most = size * response.most;
  const far = tenth(value + rise * most);
  if (rise < 0) return band.min === null || far >= band.min;
  if (band.max !== null && far > band.max) return false;
  return co === null || co.value * 2 ** (most / CO_DOUBLES_PER) <= co.max;
}

function tenth(value: number): number {
  return Math.round(value * 10) / 10;
}
