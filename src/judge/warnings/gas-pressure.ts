import type { Condition } from "../../measure/firing.ts";
import { spokenReading } from "../../measure/show.ts";
import { comparable, convert } from "../../measure/unit.ts";
import type { StandingReading } from "../../visit/state.ts";
import { limitFor } from "../limits.ts";
import { dusted, place } from "../resolution.ts";
import type { Situation } from "../situation.ts";
import type { Danger } from "./rule.ts";

/** Inlet pressure outside its limits, or falling too far when the burner runs: no adjusting on a bad supply. */
export function gasPressureOut(s: Situation): Danger | null {
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
}

/** Adjusting on a supply that nobody has proved: told once, with the first turn. */
export function gasPressureNotRead(s: Situation): Danger | null {
  const missing = missingPressures(s);
  const isFirst = s.touched.length > 0 && s.touched.length === s.state.adjustments.length;
  if (missing.length === 0 || !isFirst) return null;
  const text = `The ${missing.join(" and ")} gas pressure was not read: prove it before adjusting.`;
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

function dropsTooFar(s: Situation): boolean {
  const most = s.limits?.["gas-pressure-inlet"]?.maxDrop;
  const readings = standing(s);
  const resting = readings.find(({ reading }) => reading.condition === "static");
  if (!most || !resting || !comparable(most.unit, resting.reading.unit)) return false;
  const inUnit = ({ reading }: StandingReading) => convert(reading.value, reading.unit, most.unit);
  return readings
    .filter(({ reading }) => reading.condition === "dynamic")
    .some((running) => dusted(inUnit(resting) - inUnit(running)) > most.value);
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
