import type { Firing } from "../measure/firing.ts";
import type { Adjuster } from "../visit/sheet.ts";

/** How a screw answers: CO2 change in vol-% for one full turn in the direction in which CO2 rises. */
export interface Response {
  readonly least: number;
  readonly likely: number;
  readonly most: number;
}

/** Where the sheet gives no figure. High: about a third of a percent per turn (common practice, no source). */
const PRIOR: Readonly<Record<Firing, number>> = {
  high: 0.33,
  // The low-fire screw is sensitive: steps are a tenth to a twelfth of a turn (common practice, no source). Two percent
  // per turn makes such a step worth about 0.2 %.
  low: 2,
};

// Valves of one type differ, and a figure in a manual is a round one: our own cautious spread.
const OF_SHEET = { least: 0.7, most: 1.4 };
const OF_PRIOR = { least: 0.5, most: 2 };

/**
 * What to expect of a screw before anything is known of this valve. Advice takes its expectation only from here, so an
 * estimate that learns from the visit's own readings and turns can take this function's place.
 */
export function expectedResponse(adjuster: Firing, { percentPerTurn }: Adjuster): Response {
  const likely = percentPerTurn ?? PRIOR[adjuster];
  const spread = percentPerTurn === null ? OF_PRIOR : OF_SHEET;
  return { least: likely * spread.least, likely, most: likely * spread.most };
}
