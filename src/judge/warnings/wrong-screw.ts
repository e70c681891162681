import type { Firing } from "../../measure/firing.ts";
import { current, settled } from "../current.ts";
import { dusted } from "../resolution.ts";
import type { Situation } from "../situation.ts";
import { priorOf } from "../valve/prior.ts";
import type { Danger } from "./rule.ts";

const FIRINGS: readonly Firing[] = ["high", "low"];

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
