import type { Firing } from "../../measure/firing.ts";
import type { Sheet } from "../../visit/sheet.ts";
import type { StandingReading } from "../../visit/state.ts";
import { settled } from "../current.ts";
import { dusted } from "../resolution.ts";
import { expectedResponse } from "../response.ts";
import type { Situation } from "../situation.ts";
import type { Danger } from "./rule.ts";

/** Repeatability of an analyser's CO2, vol-%: one step of its last digit (common practice, no source). */
const REPEATABILITY = 0.1;

const FIRINGS: readonly Firing[] = ["high", "low"];

/** A settled reading that moved against the turn before it by more than the analyser's repeatability. */
export function movedWrongWay(s: Situation): Danger | null {
  const firing = FIRINGS.find((each) => {
    const move = moves(s, each)[0];
    return move && move.risen * Math.sign(move.turned) < -REPEATABILITY;
  });
  if (!firing) return null;
  const text = `C O 2 at ${firing} fire moved against the turn. Check the screw, then get help.`;
  return { code: "moved-wrong-way", text, stop: true };
}

/** Turns in one direction that should have moved the reading by two steps of its last digit, and it did not change. */
export function noResponse(s: Situation): Danger | null {
  const firing = FIRINGS.find((each) =>
    moves(s, each).some(
      (move) => move?.risen === 0 && move.oneWay && Math.abs(move.turned) * move.least >= 2 * REPEATABILITY,
    ),
  );
  if (!firing) return null;
  const text = `C O 2 at ${firing} fire did not answer the turns. Check the screw, then get help.`;
  return { code: "no-response", text, stop: true };
}

/** From one settled CO2 reading of a firing to the last one, only that firing's own screw being turned between. */
interface Move {
  /** vol-% CO2. */
  readonly risen: number;
  /** Net turns, positive in the direction in which CO2 rises. */
  readonly turned: number;
  /** Whether all turns went one way, the one before them included: on a reversal, play may eat a turn. */
  readonly oneWay: boolean;
  /** The least that the screw is expected to do, vol-% CO2 per turn. */
  readonly least: number;
}

/** The move from the reading before the last one to the last, then ever longer ones; null where they tell nothing. */
function moves(s: Situation, firing: Firing): (Move | null)[] {
  const { sheet } = s;
  const readings = [...settled(s, "co2", firing)];
  const end = readings.pop();
  if (!sheet || !end) return [];
  return readings.reverse().map((start) => moveBetween(s, sheet, firing, start, end));
}

function moveBetween(
  s: Situation,
  sheet: Sheet,
  firing: Firing,
  start: StandingReading,
  end: StandingReading,
): Move | null {
  const between = s.state.adjustments.filter(({ seq }) => start.seq < seq && seq < end.seq);
  if (between.length === 0 || between.some(({ adjuster }) => adjuster !== firing)) return null;
  const before = s.state.adjustments.findLast(({ seq, adjuster }) => seq < start.seq && adjuster === firing);
  const adjuster = sheet.adjusters[firing];
  const rising = adjuster.co2Rises === "clockwise" ? 1 : -1;
  const directions = new Set([...(before ? [before] : []), ...between].map(({ turns }) => Math.sign(turns)));
  return {
    risen: dusted(end.reading.value - start.reading.value),
    turned: rising * between.reduce((sum, { turns }) => sum + turns, 0),
    oneWay: directions.size === 1,
    least: expectedResponse(firing, adjuster).least,
  };
}
