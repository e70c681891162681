import type { StandingAdjustment } from "../../visit/state.ts";
import { acceptedHigh } from "../limits.ts";
import { SETTLING, tooEarly } from "../settle.ts";
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

/** A turn larger than the sheet's largest step, or turns that are so together, nothing being read between them. */
export function stepTooLarge(s: Situation): Danger | null {
  const { sheet } = s;
  if (!sheet) return null;
  for (const turn of s.touched) {
    const most = sheet.adjusters[turn.adjuster].largestStepTurns + DUST;
    const largest = spokenAmount(sheet.adjusters[turn.adjuster].largestStepTurns);
    if (Math.abs(turn.turns) > most)
      return { code: "step-too-large", text: `Too large a step: at most ${largest} at a time.`, stop: false };
    const sum = sinceRead(s, turn);
    // Who turns back is on his way to mend it.
    if (Math.abs(sum) <= most || sum * turn.turns < 0) continue;
    const text = `Too far without a reading: ${spokenAmount(sum)} in all, at most ${largest} at a time.`;
    return { code: "step-too-large", text, stop: false };
  }
  return null;
}

const DUST = 1e-9;

/** Signed turns of a screw up to this one since its firing was last read, once settled. */
function sinceRead(s: Situation, { adjuster, seq }: StandingAdjustment): number {
  const read = s.state.readings.findLast(
    (r) =>
      r.seq < seq &&
      SETTLING.has(r.reading.quantity) &&
      (r.reading.firing ?? adjuster) === adjuster &&
      tooEarly(s, r) === 0,
  );
  return s.state.adjustments
    .filter((each) => each.adjuster === adjuster && each.seq > (read?.seq ?? -1) && each.seq <= seq)
    .reduce((sum, each) => sum + each.turns, 0);
}
