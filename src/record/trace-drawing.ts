import { isoTime } from "../measure/instant.ts";
import { shownNumber } from "../measure/show.ts";
import { type Trace, type TraceLine, type TracePanel, timeTicks, turnSign } from "./trace.ts";
import { clockTime, firingName } from "./wording.ts";

/** A shape of the drawing; `look` says how it is drawn. */
export type Shape =
  | { readonly kind: "path"; readonly look: PathLook; readonly d: string }
  | {
      readonly kind: "rect";
      readonly look: "band";
      readonly x: number;
      readonly y: number;
      readonly width: number;
      readonly height: number;
    }
  | {
      readonly kind: "text";
      readonly look: TextLook;
      readonly x: number;
      readonly y: number;
      readonly text: string;
    };

export type PathLook =
  | "turn"
  | "frame"
  | "tick"
  | "edge"
  | "line-high"
  | "line-low"
  | "early-high"
  | "early-low"
  | "point-high"
  | "point-low";
export type TextLook = "sign" | "label" | "number" | "time";

/** The trace as shapes, in order of drawing, in a box of this size: for the screen and for paper. */
export interface TraceDrawing {
  readonly width: number;
  readonly height: number;
  readonly shapes: readonly Shape[];
}

/** The box that a trace on paper is drawn in: a third larger than it is printed, so that its letters are as small as the others. */
export const PAPER_WIDTH = 820;
export const PAPER_PANEL = 92;

/** What the signs of the drawing say. */
export const TRACE_LEGEND =
  "● high fire, ○ low fire, × read too early; shaded: inside the limits of high fire, between dashes: of low fire. Turns: H, L the high- and low-fire screw, ↻ clockwise, ↺ counterclockwise.";

const LEFT = 52;
const RIGHT = 26;
const GAP = 34;
/** Above the first panel, for the signs of the turns. */
const TOP = 44;
const FOOT = 30;
/** "H ⅛ ↻" and the space after it. */
const SIGN_WIDTH = 44;

/** Where things are in the drawing. */
interface Scale {
  readonly x: (at: number) => number;
  readonly width: number;
  readonly panel: number;
}

/** Draws a trace so wide and its panels so high, in the units of its box. */
export function drawTrace(trace: Trace, width: number, zone: string | null, panel = 150): TraceDrawing {
  const x = (at: number) => LEFT + ((at - trace.from) / (trace.to - trace.from)) * (width - LEFT - RIGHT);
  const scale = { x, width, panel };
  const bottom = TOP + trace.panels.length * (panel + GAP) - GAP;
  const turns = trace.turns.map(({ at }) => `M${x(at)} ${TOP - 8} V${bottom}`).join("");
  const shapes: Shape[] = [
    { kind: "path", look: "turn", d: turns },
    ...signsWithRoom(trace, scale),
    ...trace.panels.flatMap((each, i) => panelShapes(each, TOP + i * (panel + GAP), scale)),
    ...timeTicks(trace.from, trace.to, Math.max(1, Math.floor(width / 90))).flatMap((at): Shape[] => [
      { kind: "path", look: "tick", d: `M${x(at)} ${bottom} v6` },
      {
        kind: "text",
        look: "time",
        x: x(at),
        y: bottom + 21,
        text: clockTime(isoTime(at), zone).slice(0, 5),
      },
    ]),
  ];
  return {
    width,
    height: bottom + FOOT,
    shapes: shapes.filter((shape) => shape.kind !== "path" || shape.d !== ""),
  };
}

/** The signs of the turns, in two rows in turn; of turns that are too close to each other only the first has room for its own. */
function signsWithRoom({ turns }: Trace, { x, width }: Scale): Shape[] {
  const signs: { readonly text: string; readonly left: number }[] = [];
  for (const turn of turns) {
    const left = Math.min(width - 26, Math.max(LEFT, x(turn.at)));
    if (left - (signs.at(-2)?.left ?? Number.NEGATIVE_INFINITY) < SIGN_WIDTH) continue;
    signs.push({ text: turnSign(turn), left });
  }
  return signs.map(({ text, left }, i) => ({
    kind: "text",
    look: "sign",
    x: left,
    y: 14 + 15 * (i % 2),
    text,
  }));
}

function panelShapes(panel: TracePanel, top: number, scale: Scale): Shape[] {
  const { width, panel: high } = scale;
  const y = (value: number) => top + high - ((value - panel.from) / (panel.to - panel.from)) * high;
  return [
    { kind: "text", look: "label", x: LEFT, y: top - 6, text: panel.label },
    ...panel.lines.flatMap((line) => band(line, panel, y, width)),
    { kind: "path", look: "frame", d: `M${LEFT} ${top} V${top + high} H${width - RIGHT}` },
    ...panel.ticks.flatMap((tick): Shape[] => [
      { kind: "path", look: "tick", d: `M${LEFT} ${y(tick)} h-6` },
      { kind: "text", look: "number", x: LEFT - 9, y: y(tick) + 4.5, text: shownNumber(tick) },
    ]),
    ...panel.lines.flatMap((line) => lineShapes(line, scale.x, y)),
  ];
}

type Along = (value: number) => number;

/** From the middle of a point; all of a line are one path, which a long visit is drawn faster with. */
const CROSS = "m-4 -4 l8 8 m0 -8 l-8 8";
const DOT = "m-4.5 0 a4.5 4.5 0 1 0 9 0 a4.5 4.5 0 1 0 -9 0";

function lineShapes({ firing, points }: TraceLine, x: Along, y: Along): Shape[] {
  const way = points.map(({ at, value }, i) => `${i === 0 ? "M" : "L"}${x(at)} ${y(value)}`).join("");
  const signs = (early: boolean, sign: string) =>
    points
      .filter((point) => point.early === early)
      .map(({ at, value }) => `M${x(at)} ${y(value)} ${sign}`)
      .join("");
  return [
    { kind: "path", look: `line-${firing}`, d: way },
    { kind: "path", look: `early-${firing}`, d: signs(true, CROSS) },
    { kind: "path", look: `point-${firing}`, d: signs(false, DOT) },
  ];
}

/** The limits of a firing: of high fire a shade, of low fire two dashed lines over it. */
function band({ firing, limit }: TraceLine, panel: TracePanel, y: Along, width: number): Shape[] {
  if (!limit) return [];
  const [low, high] = [y(limit.min ?? panel.from), y(limit.max ?? panel.to)];
  if (firing === "high")
    return [
      { kind: "rect", look: "band", x: LEFT, y: high, width: width - LEFT - RIGHT, height: low - high },
    ];
  const edges = [limit.min, limit.max].filter((edge) => edge !== null);
  return [
    { kind: "path", look: "edge", d: edges.map((edge) => `M${LEFT} ${y(edge)} H${width - RIGHT}`).join("") },
  ];
}

/** The trace in words: how far each line went. */
export function traceSaid({ panels, turns }: Trace): string {
  const lines = panels.flatMap(({ label, lines }) =>
    lines.map(({ firing, points }) => {
      const [first, last] = [points[0], points.at(-1)];
      const way =
        points.length > 1
          ? `from ${shownNumber(first?.value ?? 0)} to ${shownNumber(last?.value ?? 0)} in ${points.length} readings`
          : shownNumber(first?.value ?? 0);
      return `${label}, ${firingName(firing).toLowerCase()}: ${way}`;
    }),
  );
  return [...lines, `${turns.length} turns of a screw`].join("; ");
}
