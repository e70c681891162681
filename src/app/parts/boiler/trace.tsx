import { useMemo } from "preact/hooks";
import { type Trace as TraceData, traceOf } from "../../../record/trace.ts";
import {
  drawTrace,
  PAPER_PANEL,
  PAPER_WIDTH,
  type Shape,
  TRACE_LEGEND,
  type TraceDrawing,
  traceSaid,
} from "../../../record/trace-drawing.ts";
import type { VisitState } from "../../../visit/state.ts";
import { useLater } from "../later.ts";
import { useWidth } from "../use-width.ts";

/** Of a visit with more than so many things the trace is drawn only when the answer has been for a while, ms. */
const MANY = 300;
const LATER_MS = 400;

/** CO2 and CO over the visit. */
export function Trace({ state: now }: { readonly state: VisitState }) {
  const state = useLater(now, now.items.length > MANY ? LATER_MS : 0);
  const trace = useMemo(() => traceOf(state), [state]);
  return trace && <TraceFigure trace={trace} zone={state.head.zone} />;
}

interface FigureProps {
  readonly trace: TraceData;
  readonly zone: string | null;
  /** Whether it is printed: then as it is drawn for paper, however narrow the screen is. */
  readonly paper?: boolean;
}

/** A trace as wide as its place, drawn so that it reads in black and white: shapes and dashes, no colours. */
export function TraceFigure({ trace, zone, paper }: FigureProps) {
  const { ref, width } = useWidth();
  const drawing = useMemo(() => drawTrace(trace, width.value, zone), [trace, width.value, zone]);
  return (
    <figure class="trace" ref={ref} aria-label="CO2 and CO over the visit">
      <Drawing drawing={drawing} said={traceSaid(trace)} of={paper ? "trace-screen" : ""} />
      {paper && (
        <Drawing
          drawing={drawTrace(trace, PAPER_WIDTH, zone, PAPER_PANEL)}
          said={traceSaid(trace)}
          of="trace-paper"
        />
      )}
      <figcaption>{TRACE_LEGEND}</figcaption>
    </figure>
  );
}

interface DrawingProps {
  readonly drawing: TraceDrawing;
  /** What it shows, in words. */
  readonly said: string;
  readonly of: "trace-screen" | "trace-paper" | "";
}

function Drawing({ drawing: { width, height, shapes }, said, of }: DrawingProps) {
  return (
    <svg class={of} viewBox={`0 0 ${width} ${height}`} role="img" aria-label={said}>
      {shapes.map((shape, i) => (
        <Drawn key={`${i} ${shape.look}`} shape={shape} />
      ))}
    </svg>
  );
}

function Drawn({ shape }: { readonly shape: Shape }) {
  switch (shape.kind) {
    case "path":
      return <path class={`trace-${shape.look}`} d={shape.d} />;
    case "rect": {
      const { x, y, width, height } = shape;
      return <rect class={`trace-${shape.look}`} x={x} y={y} width={width} height={height} />;
    }
    case "text":
      return (
        <text class={`trace-${shape.look}`} x={shape.x} y={shape.y}>
          {shape.text}
        </text>
      );
  }
}
