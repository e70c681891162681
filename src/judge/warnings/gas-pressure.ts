import type { Condition } from "../../measure/firing.ts";
import { spokenReading } from "../../measure/show.ts";
import type { Unit } from "../../measure/unit.ts";
import type { StandingReading } from "../../visit/state.ts";
import { isProved } from "../flue-stage.ts";
import { limitFor } from "../limits.ts";
import { dusted, limitAsSaid, place } from "../resolution.ts";
import type { Situation } from "../situation.ts";
import type { Danger } from "./rule.ts";
import { untilReadAgain } from "./until-read-again.ts";

/** Inlet pressure outside its limits, or falling too far when the burner runs: no adjusting on a bad supply. */
export const gasPressureOut = untilReadAgain((s) => {
  const out = standing(s).find((r) => {
    const limit = limitFor(s, r.reading);
    return limit !== null && place(r.reading.value, limit) !== 0;
  });
  if (out) {
    const { condition, value, unit } = out.reading;
    const said = spokenReading("gas-pressure-inlet", value, unit);
    return danger(`${condition === "static" ? "Static" : "Dynamic"} ${said}, out of limits.`);
  }
  return dropsTooFar(s) ? danger("Gas pressure drops too far from static to dynamic.") : null;
});

/**
 * A supply that nobody has proved: told once to who is about to adjust or adjusts, with the first CO2 that is out or the first
 * turn, else with the reading that proves the last firing.
 */
export function gasPressureNotRead(s: Situation): Danger | null {
  const missing = gasPressureOut(s) ? [] : missingPressures(s);
  if (missing.length === 0) return null;
  const isOut = (r: StandingReading) => {
    const limit = r.reading.quantity === "co2" ? limitFor(s, r.reading) : null;
    return limit !== null && place(r.reading.value, limit) !== 0;
  };
  const causes = [...s.state.readings.filter(isOut), ...s.state.adjustments];
  const news = new Set([...s.fresh, ...s.touched].map(({ id }) => id));
  if (!causes.every(({ id }) => news.has(id))) return null;
  if (causes.length === 0 && !(s.fresh.length > 0 && isProved(s, "high") && isProved(s, "low"))) return null;
  const then = causes.length > 0 ? ": prove it first, then adjust" : "";
  const text = `The ${missing.join(" and ")} gas pressure was not read${then}.`;
  return { code: "gas-pressure-not-read", text, stop: false };
}

/** What the sheet limits and nobody has read. */
export function missingPressures(s: Situation): Condition[] {
  const limits = s.limits?.["gas-pressure-inlet"];
  return CONDITIONS.filter(
    (condition) =>
      limits?.[condition] &&
      !s.state.readings.some(
        ({ reading }) => reading.quantity === "gas-pressure-inlet" && reading.condition === condition,
      ),
  );
}

const CONDITIONS: readonly Condition[] = ["static", "dynamic"];

function danger(text: string): Danger {
  return { code: "gas-pressure-out", text: `${text} Do not adjust.`, stop: true };
}

/** Where the sheet gives no largest drop: losing more than half of the static pressure is no healthy supply. Our own caution. */
const MOST_LOST = 0.5;

function dropsTooFar(s: Situation): boolean {
  const limits = s.limits?.["gas-pressure-inlet"];
  const readings = standing(s);
  const resting = readings.find(({ reading }) => reading.condition === "static");
  if (!limits || !resting) return false;
  const { value, unit } = limits.maxDrop ?? { ...resting.reading, value: MOST_LOST * resting.reading.value };
  return readings
    .filter(({ reading }) => reading.condition === "dynamic")
    .some(({ reading: running }) => {
      // In the unit in which the dynamic one was said, and as fine: a gauge that shows tenths of a mbar shows no more of a drop.
      const asSaid = (limit: number, from: Unit) =>
        limitAsSaid({ max: limit, unit: from }, running.quantity, running.value, running.unit).max ?? limit;
      const drop = asSaid(resting.reading.value, resting.reading.unit) - running.value;
      return dusted(drop) > asSaid(value, unit);
    });
}

/**
 * The last inlet pressures: static, and dynamic per firing, since a good one at low fire takes nothing back from a bad
 * one at high fire. A dynamic one of unknown firing holds until any later dynamic one.
 */
function standing(s: Situation): readonly StandingReading[] {
  const all = s.state.readings.filter(({ reading }) => reading.quantity === "gas-pressure-inlet");
  const last = (condition: Condition, isOf: (r: StandingReading) => boolean) =>
    all.findLast((r) => r.reading.condition === condition && isOf(r));
  const lastDynamic = last("dynamic", () => true);
  const found = [
    last("static", () => true),
    last("dynamic", ({ reading }) => reading.firing === "high"),
    last("dynamic", ({ reading }) => reading.firing === "low"),
    lastDynamic?.reading.firing === null ? lastDynamic : undefined,
  ];
  return found.filter((r) => r !== undefined);
}
