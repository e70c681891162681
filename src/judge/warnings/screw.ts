import { acceptedHigh } from "../limits.ts";
import type { Situation } from "../situation.ts";
import { spokenAmount, spokenScrew } from "../turns.ts";
import type { Danger } from "./rule.ts";

/** A turn of a screw while the boiler is in the other firing mode. */
export function wrongFiring(s: Situation): Danger | null {
  const turn = s.touched.find(({ adjuster, firing }) => firing !== null && firing !== adjuster);
  if (!turn) return null;
  const text = `The ${spokenScrew(turn.adjuster)} was turned at ${turn.firing} fire.`;
  return { code: "wrong-firing", text, stop: false };
}

/** Low fire set before high fire has passed; its band hangs on the high-fire number. */
export function lowBeforeHigh(s: Situation): Danger | null {
  const early = s.sheet && s.touched.some(({ adjuster }) => adjuster === "low") && acceptedHigh(s) === null;
  return early
    ? { code: "low-before-high", text: "Low fire was set before high fire has passed.", stop: false }
    : null;
}

/** A turn larger than the sheet's largest step. */
export function stepTooLarge(s: Situation): Danger | null {
  const { sheet } = s;
  if (!sheet) return null;
  const turn = s.touched.find(
    ({ adjuster, turns }) => Math.abs(turns) > sheet.adjusters[adjuster].largestStepTurns + 1e-9,
  );
  if (!turn) return null;
  const largest = spokenAmount(sheet.adjusters[turn.adjuster].largestStepTurns);
  return { code: "step-too-large", text: `Too large a step: at most ${largest} at a time.`, stop: false };
}
