import { useSignal } from "@preact/signals";
import { useLayoutEffect, useMemo, useRef } from "preact/hooks";
import { onWidth } from "../../../device/width.ts";
import { isoTime } from "../../../measure/instant.ts";
import { shownNumber } from "../../../measure/show.ts";
import {
  type Trace as TraceData,
  type TraceLine,
  type TracePanel,
  timeTicks,
  traceOf,
  turnSign,
} from "../../../record/trace.ts";
import { clockTime, firingName } from "../../../record/wording.ts";
import type { VisitState } from "../../../visit/state.ts";
import { useLater } from "../later.ts";

const LEFT = 52;
const RIGHT = 26;
const PANEL = 150;
const GAP = 34;
/** Above the first panel, for the signs of the turns. */
const TOP = 44;
const FOOT = 30;
/** "H ⅛ ↻" and the space after it. */
const SIGN_WIDTH = 44;

/** Of a visit with more than so many things the trace is drawn only when the answer has been for a while, ms. */
const MANY = 300;
const LATER_MS = 400;

/** CO2 and CO over the visit, drawn so that it reads in black and white: shapes and dashes, no colours. */
export function Trace({ state: now }: { readonly state: VisitState }) {
  const state = useLater(now, now.items.length > MANY ? LATER_MS : 0);
  const trace = useMemo(() => traceOf(state), [state]);
  const figure = useRef<HTMLElement>(null);
  const width = useSignal(360);
  useLayoutEffect(() => {
    const element = figure.current;
    if (!element) return;
    return onWidth(element, (pixels) => {
      width.value = pixels;
    });
  }, [trace === null]);
  if (!trace) return null;
  const height = TOP + trace.panels.length * (PANEL + GAP) - GAP + FOOT;
  return (
    <figure class="trace" ref={figure} aria-label="CO2 and CO over the visit">
      <svg viewBox={`0 0 ${width.value} ${height}`} role="img" aria-label={traceSaid(trace)}>
        <Drawing trace={trace} width={width.value} zone={state.head.zone} />
      </svg>
      <figcaption>
        ● high fire, ○ low fire, × read too early; shaded: inside the limits of high fire, between dashes: of
        low fire. Turns: H, L the high- and low-fire screw, ↻ clockwise, ↺ counterclockwise.
      </figcaption>
    </figure>
  );
}

interface DrawingProps {
  readonly trace: TraceData;
  readonly width: number;
  readonly zone: string | null;
}

function Drawing({ trace, width, zone }: DrawingProps) {
  const x = (at: number) => LEFT + ((at - trace.from) / (trace.to - trace.from)) * (width - LEFT - RIGHT);
  const bottom = TOP + trace.panels.length * (PANEL + GAP) - GAP;
  return (
    <>
      <path class="trace-turn" d={trace.turns.map(({ at }) => `M${x(at)} ${TOP - 8} V${bottom}`).join("")} />
      {signsWithRoom(trace, x, width).map(({ sign, left }, i) => (
        <text key={`${i} ${sign}`} class="trace-sign" x={left} y={14 + 15 * (i % 2)}>
          {sign}
        </text>
      ))}
      {trace.panels.map((panel, i) => (
        <Panel key={panel.quantity} panel={panel} top={TOP + i * (PANEL + GAP)} x={x} width={width} />
      ))}
      {timeTicks(trace.from, trace.to, Math.max(1, Math.floor(width / 90))).map((at) => (
        <g key={at}>
          <path class="trace-tick" d={`M${x(at)} ${bottom} v6`} />
          <text class="trace-time" x={x(at)} y={bottom + 21}>
            {clockTime(isoTime(at), zone).slice(0, 5)}
          </text>
        </g>
      ))}
    </>
  );
}

/** The signs of the turns, in two rows in turn; of turns that are too close to each other only the first has room for its own. */
function signsWithRoom({ turns }: TraceData, x: (at: number) => number, width: number) {
  const signs: { readonly sign: string; readonly left: number }[] = [];
  for (const turn of turns) {
    const left = Math.min(width - 26, Math.max(LEFT, x(turn.at)));
    if (left - (signs.at(-2)?.left ?? Number.NEGATIVE_INFINITY) < SIGN_WIDTH) continue;
    signs.push({ sign: turnSign(turn), left });
  }
  return signs;
}

interface PanelProps {
  readonly panel: TracePanel;
  readonly top: number;
  readonly x: (at: number) => number;
  readonly width: number;
}

function Panel({ panel, top, x, width }: PanelProps) {
  const y = (value: number) => top + PANEL - ((value - panel.from) / (panel.to - panel.from)) * PANEL;
  return (
    <g>
      <text class="trace-label" x={LEFT} y={top - 6}>
        {panel.label}
      </text>
      {panel.lines.map((line) => (
        <Band key={line.firing} line={line} panel={panel} y={y} width={width} />
      ))}
      <path class="trace-frame" d={`M${LEFT} ${top} V${top + PANEL} H${width - RIGHT}`} />
      {panel.ticks.map((tick) => (
        <g key={tick}>
          <path class="trace-tick" d={`M${LEFT} ${y(tick)} h-6`} />
          <text class="trace-number" x={LEFT - 9} y={y(tick) + 4.5}>
            {shownNumber(tick)}
          </text>
        </g>
      ))}
      {panel.lines.map((line) => (
        <g key={line.firing} class={`trace-${line.firing}`}>
          <path
            class="trace-line"
            d={line.points.map(({ at, value }, i) => `${i === 0 ? "M" : "L"}${x(at)} ${y(value)}`).join("")}
          />
          <path class="trace-early" d={signsAt(line, true, x, y, CROSS)} />
          <path class="trace-point" d={signsAt(line, false, x, y, DOT)} />
        </g>
      ))}
    </g>
  );
}

/** From the middle of a point; all of a line are one path, which a long visit is drawn faster with. */
const CROSS = "m-4 -4 l8 8 m0 -8 l-8 8";
const DOT = "m-4.5 0 a4.5 4.5 0 1 0 9 0 a4.5 4.5 0 1 0 -9 0";

function signsAt(
  { points }: TraceLine,
  early: boolean,
  x: (at: number) => number,
  y: (value: number) => number,
  sign: string,
): string {
  return points
    .filter((point) => point.early === early)
    .map(({ at, value }) => `M${x(at)} ${y(value)} ${sign}`)
    .join("");
}

interface BandProps {
  readonly line: TraceLine;
  readonly panel: TracePanel;
  readonly y: (value: number) => number;
  readonly width: number;
}

/** The limits of a firing: of high fire a shade, of low fire two dashed lines over it. */
function Band({ line: { firing, limit }, panel, y, width }: BandProps) {
  if (!limit) return null;
  const [low, high] = [y(limit.min ?? panel.from), y(limit.max ?? panel.to)];
  if (firing === "high")
    return <rect class="trace-band" x={LEFT} y={high} width={width - LEFT - RIGHT} height={low - high} />;
  const edges = [limit.min, limit.max].filter((edge) => edge !== null);
  return (
    <path class="trace-edge" d={edges.map((edge) => `M${LEFT} ${y(edge)} H${width - RIGHT}`).join("")} />
  );
}

/** The trace in words: how far each line went. */
function traceSaid({ panels, turns }: TraceData): string {
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
