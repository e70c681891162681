import type { Firing } from "../../measure/firing.ts";
import type { StandingReading } from "../../visit/state.ts";
import { settled } from "../current.ts";
import { limitFor } from "../limits.ts";
import { dusted, place } from "../resolution.ts";
import type { Situation } from "../situation.ts";
import { beliefOf, CONTRADICTED, hinders, isConfirmed } from "../valve/belief.ts";
import { towardsRise } from "../valve/events.ts";
import { type Fault, faultText } from "../valve/fault.ts";
import type { Danger } from "./rule.ts";

/** Repeatability of an analyser's CO2, vol-%: one step of its last digit (common practice, no source). */
const REPEATABILITY = 0.1;

const FIRINGS: readonly Firing[] = ["high", "low"];

/** A settled reading that moved against the turn before it by more than the analyser's repeatability. */
export function movedWrongWay(s: Situation): Danger | null {
  for (const firing of FIRINGS) {
    const fault = beliefOf(s, firing)?.fault ?? null;
    const reversed = fault?.kind === "reversed" ? fault : null;
    // One reading against the turn is no news where another fault is sure.
    if (!reversed && (fault?.sure || !movedAgainst(s, firing))) continue;
    const told = reversed ?? { kind: "reversed", sure: false };
    if (told.sure || isNews(s, firing)) return danger(s, "moved-wrong-way", told, firing);
  }
  return null;
}

/** Turns that should have moved the reading, and it did not. */
export function noResponse(s: Situation): Danger | null {
  for (const firing of FIRINGS) {
    const belief = beliefOf(s, firing);
    const way = wayTo(s, firing);
    const fault = belief && way && hinders(belief, way) ? belief.fault : null;
    if (!fault || fault.kind === "reversed") continue;
    if (fault.sure || isNews(s, firing)) return danger(s, "no-response", fault, firing);
  }
  return null;
}

/** More turns of one screw than this bring nothing: something else is wrong. */
const MOST_TURNS = 20;

/** Turns without end, and the firing is still out. */
export function noProgress(s: Situation): Danger | null {
  const firing = FIRINGS.find(
    (each) => (beliefOf(s, each)?.touches ?? 0) >= MOST_TURNS && wayTo(s, each) !== null,
  );
  if (!firing) return null;
  const text = `Many turns, and ${firing} fire is still out: check that it is the right screw. Get help.`;
  return { code: "no-progress", text, stop: true };
}

function danger(s: Situation, code: Danger["code"], fault: Fault, firing: Firing): Danger {
  const belief = beliefOf(s, firing);
  const then = fault.sure
    ? "Get help."
    : belief && isConfirmed(belief)
      ? "Watch the next turn."
      : "Read again.";
  return { code, text: `${faultText(fault, firing)} ${then}`, stop: fault.sure };
}

/** A suspicion is told with the reading that raised it; what is sure stands until a reading takes it back. */
function isNews(s: Situation, firing: Firing): boolean {
  return s.fresh.some(({ reading }) => reading.quantity === "co2" && reading.firing === firing);
}

/** Which way CO2 has to go to come into its band: 1 up, -1 down; null where it is inside or not known. */
function wayTo(s: Situation, firing: Firing): 1 | -1 | null {
  const last = settled(s, "co2", firing).at(-1);
  const limit = last && limitFor(s, last.reading);
  const where = last && limit ? place(last.reading.value, limit) : 0;
  return where === 0 ? null : where < 0 ? 1 : -1;
}

/** Whether the last readings lie on the wrong side of those before the last turns, only the firing's own screw being turned between. */
function movedAgainst(s: Situation, firing: Firing): boolean {
  const readings = settled(s, "co2", firing);
  const { adjustments } = s.state;
  const touched = (after: StandingReading, before: number) =>
    adjustments.filter(({ seq }) => after.seq < seq && seq < before);
  const start = readings.findLast((r) => touched(r, Number.POSITIVE_INFINITY).length > 0);
  if (!start) return false;
  const next = readings.find((r) => r.seq > start.seq);
  const turns = next ? touched(start, next.seq) : [];
  const last = readings.at(-1)?.reading.value ?? Number.NaN;
  const now = next
    ? readings.filter((r) => r.seq >= next.seq && Math.abs(r.reading.value - last) <= CONTRADICTED)
    : [];
  if (turns.length === 0 || now.length === 0 || turns.some(({ adjuster }) => adjuster !== firing))
    return false;
  const turned = turns.reduce((sum, each) => sum + towardsRise(s, each), 0);
  const mean = now.reduce((sum, { reading }) => sum + reading.value, 0) / now.length;
  return dusted((mean - start.reading.value) * Math.sign(turned)) < -REPEATABILITY;
}
