import type { StandingAdjustment, StandingReading } from "../../visit/state.ts";
import type { Situation } from "../situation.ts";

/** Turns of an adjustment in the direction in which the sheet says that CO2 rises. */
export function towardsRise(s: Situation, { adjuster, turns }: StandingAdjustment): number {
  return s.sheet?.adjusters[adjuster].co2Rises === "counterclockwise" ? -turns : turns;
}

/** The visit's readings of one firing and turns of both screws after a first reading, in spoken order. */
export function eventsAfter(
  s: Situation,
  first: StandingReading,
  readings: readonly StandingReading[],
): readonly (StandingReading | StandingAdjustment)[] {
  return [...readings, ...s.state.adjustments]
    .filter(({ seq }) => seq > first.seq)
    .sort((a, b) => a.seq - b.seq);
}
