import type { Unit } from "../measure/unit.ts";
import type { Reading } from "../visit/entry.ts";
import type { StandingReading } from "../visit/state.ts";
import { current } from "./current.ts";
import type { Limit } from "./judgement.ts";
import { dusted, limitAsSaid, place } from "./resolution.ts";
import type { Situation } from "./situation.ts";

/** A limit as the sheet gives it; either side may be missing. */
export interface Edges {
  readonly min?: number | undefined;
  readonly max?: number | undefined;
  readonly unit: Unit;
}

/** The limit that applies to a reading, in the reading's unit; null where none is known. */
export function limitFor(s: Situation, reading: Reading): Limit | null {
  const edges = edgesFor(s, reading);
  return edges && limitAsSaid(edges, reading.quantity, reading.value, reading.unit);
}

/** The limit of a quantity in the sheet's own unit; null where none is known, or hangs on a high fire not yet accepted. */
export function edgesFor(
  s: Situation,
  { quantity, firing, condition }: Pick<Reading, "quantity" | "firing" | "condition">,
): Edges | null {
  const { limits } = s;
  if (!limits) return null;
  if (quantity === "gas-pressure-inlet") {
    return (condition && limits["gas-pressure-inlet"]?.[condition]) ?? null;
  }
  if (firing === null || (quantity !== "co2" && quantity !== "o2" && quantity !== "co")) return null;
  const edges = limits[firing][quantity];
  if (!edges) return null;
  return "belowHigh" in edges ? belowHigh(s, edges.belowHigh) : edges;
}

/** Low fire hangs on the high-fire number: from `max` below it to `min` below it, in % CO2. */
function belowHigh(s: Situation, by: { min: number; max: number }): Edges | null {
  const high = acceptedHigh(s)?.reading.value;
  return high === undefined ? null : { min: dusted(high - by.max), max: dusted(high - by.min), unit: "%" };
}

/**
 * The high-fire CO2 that was accepted: the current one (settled, taken after the last touch of the high-fire screw), if
 * it is inside its band. A high-fire reading that failed since takes back the one that passed before it.
 */
export function acceptedHigh(s: Situation): StandingReading | null {
  const latest = current(s, "co2", "high");
  if (!latest) return null;
  const limit = limitFor(s, latest.reading);
  return limit && place(latest.reading.value, limit) === 0 ? latest : null;
}
