import { useMemo } from "preact/hooks";
import type { Firing } from "../../../measure/firing.ts";
import { isoTime } from "../../../measure/instant.ts";
import { shownNumber } from "../../../measure/show.ts";
import type { History } from "../../../record/office/drift.ts";
import { shownDay } from "../../../record/wording.ts";
import {
  type HistoryMark,
  type HistoryPanel,
  historyDrawing,
  type Step,
} from "../../office/history-drawing.ts";
import { historySaid } from "../../office/history-words.ts";
import { useWidth } from "../use-width.ts";

const LEFT = 56;
const RIGHT = 56;
const PANEL = 130;
const GAP = 36;
const TOP = 24;
const FOOT = 30;
/** "25 Nov 2026" and the space after it. */
const DAY_WIDTH = 104;
/** What was found stands a little before what was left in the same visit. */
const BESIDE = 5;

/** CO2, CO and the screws over the years, drawn so that it reads in black and white: shapes and dashes, no colours. */
export function HistoryFigure({ history }: { readonly history: History }) {
  const drawing = useMemo(() => historyDrawing(history.points), [history]);
  const { ref, width } = useWidth(drawing !== null);
  if (!drawing) return <p>One visit: there is nothing to compare it with yet.</p>;
  const right = width.value - RIGHT;
  const x = (at: number) =>
    LEFT + 12 + ((at - drawing.from) / (drawing.to - drawing.from)) * (right - LEFT - 24);
  const bottom = TOP + (drawing.panels.length + 1) * (PANEL + GAP) - GAP;
  const screwsTop = bottom - PANEL;
  return (
    <figure class="trace history" ref={ref} aria-label="CO2, CO and the screws over the visits">
      <svg viewBox={`0 0 ${width.value} ${bottom + FOOT}`} role="img" aria-label={historySaid(history)}>
        {drawing.panels.map((panel, place) => (
          <Panel key={panel.quantity} panel={panel} top={TOP + place * (PANEL + GAP)} right={right} x={x} />
        ))}
        <Frame label="Screws, turns clockwise" scale={drawing.screws} top={screwsTop} right={right} />
        {(["high", "low"] as const).map((adjuster) => (
          <path
            key={adjuster}
            class={`history-steps history-${adjuster}`}
            d={stepsPath(drawing.screws.steps[adjuster], x, right, yOf(drawing.screws, screwsTop))}
          />
        ))}
        {daysWithRoom(drawing.times, x).map(({ at, day }) => (
          <g key={at}>
            <path class="trace-tick" d={`M${x(at)} ${bottom} v6`} />
            <text class="trace-time" x={x(at)} y={bottom + 21}>
              {day}
            </text>
          </g>
        ))}
      </svg>
      <figcaption>
        High fire: ○ as found, ● as left. Low fire: □ as found, ■ as left. Dotted: from what it was left at to
        what it was found at next. Screws: high-fire screw a whole line, low-fire screw dashed, as far as
        these visits know.
      </figcaption>
    </figure>
  );
}

interface Scale {
  readonly from: number;
  readonly to: number;
  readonly ticks: readonly number[];
}

function yOf({ from, to }: Scale, top: number): (value: number) => number {
  return (value) => top + PANEL - ((value - from) / (to - from)) * PANEL;
}

interface FrameProps {
  readonly label: string;
  readonly scale: Scale;
  readonly top: number;
  readonly right: number;
}

function Frame({ label, scale, top, right }: FrameProps) {
  const y = yOf(scale, top);
  return (
    <>
      <text class="trace-label" x={LEFT} y={top - 6}>
        {label}
      </text>
      <path class="trace-frame" d={`M${LEFT} ${top} V${top + PANEL} H${right}`} />
      {scale.ticks.map((tick) => (
        <g key={tick}>
          <path class="trace-tick" d={`M${LEFT} ${y(tick)} h-6`} />
          <text class="trace-number" x={LEFT - 9} y={y(tick) + 4.5}>
            {shownNumber(tick)}
          </text>
        </g>
      ))}
    </>
  );
}

interface PanelProps {
  readonly panel: HistoryPanel;
  readonly top: number;
  readonly right: number;
  readonly x: (at: number) => number;
}

const SHAPES: Readonly<Record<Firing, string>> = {
  high: "m-4.5 0 a4.5 4.5 0 1 0 9 0 a4.5 4.5 0 1 0 -9 0",
  low: "m-4 -4 h8 v8 h-8 Z",
};

function Panel({ panel, top, right, x }: PanelProps) {
  const y = yOf(panel, top);
  const placeOf = ({ at, stand, value }: HistoryMark) =>
    `${x(at) + (stand === "found" ? -BESIDE : BESIDE)} ${y(value)}`;
  const path = (stand: HistoryMark["stand"]) =>
    panel.marks
      .filter((mark) => mark.stand === stand)
      .map((mark) => `M${placeOf(mark)} ${SHAPES[mark.firing]}`)
      .join("");
  return (
    <g>
      <Frame label={panel.label} scale={panel} top={top} right={right} />
      <path
        class="history-drift"
        d={panel.drifts.map(({ from, to }) => `M${placeOf(from)} L${placeOf(to)}`).join("")}
      />
      <path class="history-found" d={path("found")} />
      <path class="history-left" d={path("left")} />
    </g>
  );
}

/** From before the first visit to the right edge; a step at each visit. */
function stepsPath(
  steps: readonly Step[],
  x: (at: number) => number,
  right: number,
  y: (turns: number) => number,
): string {
  const stairs = steps.map(({ at, turns }) => `H${x(at)} V${y(turns)}`).join("");
  return `M${LEFT} ${y(0)} ${stairs} H${right}`;
}

/** The days of the first and the last visit, and of those between that have room. */
function daysWithRoom(times: readonly number[], x: (at: number) => number) {
  const last = times.at(-1) ?? 0;
  const shown: number[] = [];
  for (const at of times) {
    const before = shown.at(-1);
    if (before !== undefined && x(at) - x(before) < DAY_WIDTH) continue;
    if (at !== last && before !== undefined && x(last) - x(at) < DAY_WIDTH) continue;
    shown.push(at);
  }
  return shown.map((at) => ({ at, day: shownDay(isoTime(at).slice(0, 10)) }));
}
