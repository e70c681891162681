import type { Firing } from "../../measure/firing.ts";
import type { StandingReading } from "../../visit/state.ts";
import { current, settled } from "../current.ts";
import { limitFor } from "../limits.ts";
import { dusted, place } from "../resolution.ts";
import type { Situation } from "../situation.ts";
import { beliefOf, CONTRADICTED, hinders, isConfirmed } from "../valve/belief.ts";
import { towardsRise } from "../valve/events.ts";
import { type Fault, faultText } from "../valve/fault.ts";
import { priorOf } from "../valve/prior.ts";
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

/** vol-% CO2 between the two firings that no sound valve shows: each follows the other. Our own caution. */
const FAR_APART = 2;

/** Each screw feels like a lazy one at the other firing: what the other firing shows tells them apart. */
export function wrongScrew(s: Situation): Danger | null {
  return lowForHigh(s) ?? highForLow(s);
}

/** Low fire far off high fire after high-fire turns alone. */
function lowForHigh(s: Situation): Danger | null {
  const { high, low } = s.state.lastTouch;
  const [atHigh, atLow] = [current(s, "co2", "high"), current(s, "co2", "low")];
  if (!high || low || !atHigh || !atLow) return null;
  if (Math.abs(dusted(atLow.reading.value - atHigh.reading.value)) <= FAR_APART) return null;
  const text = "Low fire C O 2 is far off high fire: was the wrong screw turned? Get help.";
  return { code: "wrong-screw", text, stop: true };
}

/** vol-% CO2, and share of what low fire does, by which low-fire turns do not move high fire. Our own caution. */
const FOLLOWED = 0.5;
const SHARED = 2 / 3;

/** How much more than thought the high-fire screw may do. A larger move is not its work: no screw is to blame then. */
const MORE = 2;

/** High fire moved after low-fire turns alone, about as far as low fire did, and no further than the high-fire screw turned so far moves it. */
function highForLow(s: Situation): Danger | null {
  const since = s.state.lastTouch.high?.seq ?? -1;
  const touches = s.state.adjustments.filter(({ seq }) => seq > since);
  const turns = touches.map(({ seq }) => seq);
  const [high, low] = FIRINGS.map((firing) => moveAcross(s, firing, since, turns));
  if (!s.sheet || !high || !low || Math.abs(high) < FOLLOWED) return null;
  const turned = Math.abs(touches.reduce((sum, touch) => sum + touch.turns, 0));
  if (Math.abs(high) > MORE * priorOf("high", s.sheet.adjusters.high).gain * turned) return null;
  if (Math.sign(high) !== Math.sign(low) || Math.abs(high) < SHARED * Math.abs(low)) return null;
  const text = "High fire moved as much as low fire: was the wrong screw turned? Get help.";
  return { code: "wrong-screw", text, stop: true };
}

/** vol-% CO2 between the last reading of a firing before these turns and the last one after them; null where one is missing. */
function moveAcross(s: Situation, firing: Firing, since: number, turns: readonly number[]): number | null {
  const readings = settled(s, "co2", firing).filter(({ seq }) => seq > since);
  const before = readings.findLast(({ seq }) => turns.every((turn) => seq < turn));
  const after = readings.findLast(({ seq }) => turns.every((turn) => seq > turn));
  return before && after ? dusted(after.reading.value - before.reading.value) : null;
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
