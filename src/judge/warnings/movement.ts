import type { Firing } from "../../measure/firing.ts";
import type { StandingReading } from "../../visit/state.ts";
import { settled } from "../current.ts";
import { dusted } from "../resolution.ts";
import type { Situation } from "../situation.ts";
import { beliefOf, isConfirmed } from "../valve/belief.ts";
import { towardsRise } from "../valve/events.ts";
import { type Fault, faultOf, faultText } from "../valve/fault.ts";
import { verdictOf } from "../verdict.ts";
import type { Danger } from "./rule.ts";

/** Repeatability of an analyser's CO2, vol-%: one step of its last digit (common practice, no source). */
const REPEATABILITY = 0.1;

const FIRINGS: readonly Firing[] = ["high", "low"];

/** A settled reading that moved against the turn before it by more than the analyser's repeatability. */
export function movedWrongWay(s: Situation): Danger | null {
  for (const firing of FIRINGS) {
    const fault = faultAt(s, firing);
    const reversed = fault?.kind === "reversed" ? fault : null;
    if (!reversed && !movedAgainst(s, firing)) continue;
    const told = reversed ?? { kind: "reversed", sure: false };
    if (told.sure || isNews(s, firing)) return danger(s, "moved-wrong-way", told, firing);
  }
  return null;
}

/** Turns that should have moved the reading, and it did not. */
export function noResponse(s: Situation): Danger | null {
  for (const firing of FIRINGS) {
    const fault = faultAt(s, firing);
    if (!fault || fault.kind === "reversed" || !isOut(s, firing)) continue;
    if (fault.sure || isNews(s, firing)) return danger(s, "no-response", fault, firing);
  }
  return null;
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

/** What the readings say about the screw, for turns in the direction of the last one. */
function faultAt(s: Situation, firing: Firing): Fault | null {
  const last = s.state.lastTouch[firing];
  const belief = last && beliefOf(s, firing);
  if (!last || !belief) return null;
  return faultOf(belief.bank, towardsRise(s, last) > 0 ? 1 : -1, isConfirmed(belief));
}

/** A suspicion is told with the reading that raised it; what is sure stands until a reading takes it back. */
function isNews(s: Situation, firing: Firing): boolean {
  return s.fresh.some(({ reading }) => reading.quantity === "co2" && reading.firing === firing);
}

function isOut(s: Situation, firing: Firing): boolean {
  const last = settled(s, "co2", firing).at(-1);
  return last !== undefined && verdictOf(s, last).verdict === "fail";
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
  const now = next ? readings.filter((r) => r.seq >= next.seq) : [];
  if (turns.length === 0 || now.length === 0 || turns.some(({ adjuster }) => adjuster !== firing))
    return false;
  const turned = turns.reduce((sum, each) => sum + towardsRise(s, each), 0);
  const mean = now.reduce((sum, { reading }) => sum + reading.value, 0) / now.length;
  return dusted((mean - start.reading.value) * Math.sign(turned)) < -REPEATABILITY;
}
