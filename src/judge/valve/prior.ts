import type { Firing } from "../../measure/firing.ts";
import type { Adjuster } from "../../visit/sheet.ts";
import type { Prior } from "./start-bank.ts";

/** Where the sheet gives no figure: CO2 change in vol-% for one full turn. */
const USUAL: Readonly<Record<Firing, number>> = {
  // About a third of a percent per turn (common practice, no source).
  high: 0.33,
  // The low-fire screw is sensitive: steps are a tenth to a twelfth of a turn (common practice, no source). Two percent
  // per turn makes such a step worth about 0.2 %.
  low: 2,
};

// Valves of one type differ, and a figure in a manual is a round one: our own cautious spread (of the logarithm).
const SPREAD_OF_SHEET = 0.35;
const SPREAD_OF_USUAL = 0.55;

/** What to expect of a screw before anything is known of this valve. */
export function priorOf(firing: Firing, { percentPerTurn }: Adjuster): Prior {
  return percentPerTurn === null
    ? { gain: USUAL[firing], spread: SPREAD_OF_USUAL }
    : { gain: percentPerTurn, spread: SPREAD_OF_SHEET };
}
