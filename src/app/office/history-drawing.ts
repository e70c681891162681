import type { Firing } from "../../measure/firing.ts";
import { epochMs } from "../../measure/instant.ts";
import { ticksOf } from "../../measure/ticks.ts";
import type { DriftPoint } from "../../record/office/drift.ts";

/** One reading of a history: as found or as left. */
export interface HistoryMark {
  /** Milliseconds since the epoch, of the visit. */
  readonly at: number;
  readonly firing: Firing;
  readonly stand: "found" | "left";
  readonly value: number;
}

/** From what an appliance was left at to what it was found at in the next visit, with the same gas. */
export interface Drifted {
  readonly firing: Firing;
  readonly from: HistoryMark;
  readonly to: HistoryMark;
}

/** CO2 or CO over the years. */
export interface HistoryPanel {
  readonly quantity: "co2" | "co";
  readonly label: string;
  readonly marks: readonly HistoryMark[];
  readonly drifts: readonly Drifted[];
  readonly ticks: readonly number[];
  readonly from: number;
  readonly to: number;
}

/** Where a screw stood from a visit on, turns from before the first of them. */
export interface Step {
  readonly at: number;
  readonly turns: number;
}

/** All that the drawing of a history shows; times in milliseconds since the epoch. */
export interface HistoryDrawing {
  readonly from: number;
  readonly to: number;
  readonly panels: readonly HistoryPanel[];
  readonly screws: {
    readonly steps: Readonly<Record<Firing, readonly Step[]>>;
    readonly ticks: readonly number[];
    readonly from: number;
    readonly to: number;
  };
  /** When the visits were. */
  readonly times: readonly number[];
}

const FIRINGS = ["high", "low"] as const;

/** The drawing of a history; null where there are not two visits to draw a line between. */
export function historyDrawing(points: readonly DriftPoint[]): HistoryDrawing | null {
  const times = points.map(({ startedAt }) => epochMs(startedAt));
  const [from = 0, to = 0] = [times[0], times.at(-1)];
  if (to <= from) return null;
  const turns = points.flatMap(({ position }) => [position.high, position.low]);
  return {
    from,
    to,
    panels: [panelOf(points, "co2"), panelOf(points, "co")].filter(({ marks }) => marks.length > 0),
    screws: {
      steps: { high: stepsOf(points, "high"), low: stepsOf(points, "low") },
      ...scaleOf([0, ...turns], 0.25),
    },
    times,
  };
}

function panelOf(points: readonly DriftPoint[], quantity: HistoryPanel["quantity"]): HistoryPanel {
  const markOf = (point: DriftPoint, firing: Firing, stand: HistoryMark["stand"]): HistoryMark | null => {
    const figure = point[stand][firing][quantity];
    return figure && { at: epochMs(point.startedAt), firing, stand, value: figure.value };
  };
  const marks = points.flatMap((point) =>
    FIRINGS.flatMap((firing) => [markOf(point, firing, "found"), markOf(point, firing, "left")]),
  );
  const drifts = points.flatMap((point, place) => {
    const before = points[place - 1];
    if (before?.fuel !== point.fuel) return [];
    return FIRINGS.flatMap((firing): Drifted[] => {
      const [left, found] = [markOf(before, firing, "left"), markOf(point, firing, "found")];
      return left && found ? [{ firing, from: left, to: found }] : [];
    });
  });
  const shown = marks.filter((mark) => mark !== null);
  return {
    quantity,
    label: quantity === "co2" ? "CO2, %" : "CO, ppm",
    marks: shown,
    drifts,
    ...scaleOf(
      shown.map(({ value }) => value),
      quantity === "co2" ? 0.5 : 20,
    ),
  };
}

function stepsOf(points: readonly DriftPoint[], adjuster: Firing): Step[] {
  return points.map(({ startedAt, position }) => ({ at: epochMs(startedAt), turns: position[adjuster] }));
}

/** A scale around values, at least so wide. */
function scaleOf(values: readonly number[], least: number): Pick<HistoryPanel, "ticks" | "from" | "to"> {
  const low = values.reduce((a, b) => Math.min(a, b), Number.POSITIVE_INFINITY);
  const high = values.reduce((a, b) => Math.max(a, b), Number.NEGATIVE_INFINITY);
  const room = Math.max(0, least - (high - low)) / 2 + 0.08 * (high - low);
  const [from, to] = [low - room, high + room];
  return { ticks: ticksOf(from, to), from, to };
}
