import type { Limit } from "../judge/judgement.ts";
import { limitFor } from "../judge/limits.ts";
import { tooEarly } from "../judge/settle.ts";
import { type Situation, situationOf } from "../judge/situation.ts";
import { Firing } from "../measure/firing.ts";
import { epochMs } from "../measure/instant.ts";
import { quantityOf } from "../measure/quantity.ts";
import { ticksOf } from "../measure/ticks.ts";
import { shownUnit, type Unit } from "../measure/unit.ts";
import type { StandingReading, VisitState } from "../visit/state.ts";
import { direction, shownDistance } from "./wording.ts";

/** What is traced, from the top. Each has one unit, so that nothing is converted. */
const TRACED = ["co2", "co"] as const;

export interface TracePoint {
  /** Milliseconds since the epoch. */
  readonly at: number;
  readonly value: number;
  /** Read before the settle time was over. */
  readonly early: boolean;
}

/** The readings of one quantity at one firing, and the limit that holds for the last of them. */
export interface TraceLine {
  readonly firing: Firing;
  readonly points: readonly TracePoint[];
  readonly limit: Limit | null;
}

export interface TracePanel {
  readonly quantity: (typeof TRACED)[number];
  /** "CO2, %". */
  readonly label: string;
  readonly unit: Unit;
  readonly lines: readonly TraceLine[];
  readonly from: number;
  readonly to: number;
  readonly ticks: readonly number[];
}

export interface TraceTurn {
  readonly at: number;
  readonly adjuster: Firing;
  /** Signed turns, clockwise positive. */
  readonly turns: number;
}

/** CO2 and CO over a visit, with the turns of the screws. Times in milliseconds since the epoch. */
export interface Trace {
  readonly from: number;
  readonly to: number;
  readonly panels: readonly TracePanel[];
  readonly turns: readonly TraceTurn[];
}

/** The trace of what stands in a visit; null while there are not two moments to draw a line between. */
export function traceOf(state: VisitState): Trace | null {
  const s = situationOf(state, [], state.head.startedAt);
  const panels = TRACED.flatMap((quantity) => panelOf(s, quantity));
  const turns = state.adjustments.map(({ at, adjuster, turns }) => ({ at: epochMs(at), adjuster, turns }));
  const times = [
    ...panels.flatMap(({ lines }) => lines.flatMap(({ points }) => points.map(({ at }) => at))),
    ...turns.map(({ at }) => at),
  ];
  const [from, to] = [least(times), most(times)];
  return panels.length > 0 && to > from ? { from, to, panels, turns } : null;
}

function panelOf(s: Situation, quantity: TracePanel["quantity"]): TracePanel[] {
  const lines = Firing.options.flatMap((firing) => lineOf(s, quantity, firing));
  if (lines.length === 0) return [];
  const shown = lines.flatMap(({ points, limit }) => [
    ...points.map(({ value }) => value),
    ...[limit?.min, limit?.max].filter((edge) => typeof edge === "number"),
  ]);
  if (quantity === "co") shown.push(0);
  const [low, high] = [least(shown), most(shown)];
  const margin = 0.08 * (high - low || 1);
  const from = quantity === "co" ? 0 : low - margin;
  const { name, units } = quantityOf(quantity);
  const label = `${name}, ${shownUnit(units[0])}`;
  return [
    { quantity, label, unit: units[0], lines, from, to: high + margin, ticks: ticksOf(from, high + margin) },
  ];
}

function lineOf(s: Situation, quantity: TracePanel["quantity"], firing: Firing): TraceLine[] {
  const readings = s.state.readings.filter(
    (r) => r.reading.quantity === quantity && r.reading.firing === firing,
  );
  const last = readings.at(-1);
  if (!last) return [];
  return [{ firing, points: readings.map((r) => pointOf(s, r)), limit: limitFor(s, last.reading) }];
}

function pointOf(s: Situation, r: StandingReading): TracePoint {
  return { at: epochMs(r.at), value: r.reading.value, early: tooEarly(s, r) > 0 };
}

/** Without a spread: a visit may have more readings than a call takes arguments. */
function least(values: readonly number[]): number {
  return values.reduce((a, b) => Math.min(a, b), Number.POSITIVE_INFINITY);
}

function most(values: readonly number[]): number {
  return values.reduce((a, b) => Math.max(a, b), Number.NEGATIVE_INFINITY);
}

const MINUTE = 60_000;
const STEPS = [1, 2, 5, 10, 15, 30, 60, 120, 240, 480, 1440].map((minutes) => minutes * MINUTE);

/** Full minutes, quarters or hours for the time axis, at most so many. */
export function timeTicks(from: number, to: number, most: number): number[] {
  const step =
    STEPS.find((each) => (to - from) / each <= most) ??
    Math.ceil((to - from) / most / 1440 / MINUTE) * 1440 * MINUTE;
  const first = Math.ceil(from / step);
  return Array.from({ length: Math.floor(to / step) - first + 1 }, (_, i) => (first + i) * step);
}

/** "¼ turn clockwise" in few signs: "H ¼ ↻" for the high-fire screw. */
export function turnSign({ adjuster, turns }: TraceTurn): string {
  const distance = shownDistance(turns).replace(/ turns?$/, "");
  return `${adjuster === "high" ? "H" : "L"} ${distance} ${direction(turns) === "clockwise" ? "↻" : "↺"}`;
}
