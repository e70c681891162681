import { shownNumber } from "../../../measure/show.ts";
import { type Scale as ScaleData, type ScalePoint, scaleSaid } from "../../boiler/scale.ts";

const WIDTH = 400;
/** The engraved line, the numbers under it, and the edge of the band, from the top. */
const LINE = 64;
const NUMBERS = 90;

/** The present reading as a pointer over an engraved scale, its band, the readings before it, and where the turn should land. */
export function Scale({ scale }: { readonly scale: ScaleData }) {
  const { band, points, landing, from, to, ticks } = scale;
  const x = (value: number) => 12 + ((value - from) / (to - from)) * (WIDTH - 24);
  const [left, right] = [x(band.min ?? from), x(band.max ?? to)];
  const present = points[points.length - 1] as ScalePoint;
  const at = x(present.value);
  return (
    <svg class="scale" viewBox={`0 0 ${WIDTH} 122`} role="img" aria-label={scaleSaid(scale)}>
      <rect class="scale-band" x={left} y={LINE - 15} width={right - left} height="15" />
      {band.min !== null && <path class="scale-edge" d={`M${left} ${LINE - 26} V${LINE + 8}`} />}
      {band.max !== null && <path class="scale-edge" d={`M${right} ${LINE - 26} V${LINE + 8}`} />}
      <path class="scale-line" d={`M4 ${LINE} H${WIDTH - 4}`} />
      {ticks.map((tick) => (
        <g key={tick}>
          <path class="scale-tick" d={`M${x(tick)} ${LINE} v9`} />
          <text class="scale-number" x={x(tick)} y={NUMBERS}>
            {shownNumber(tick)}
          </text>
        </g>
      ))}
      {points.slice(0, -1).map((point, i) => (
        <circle
          // Readings have no name of their own; their order is it.
          key={`${i} ${point.value}`}
          class="scale-earlier"
          cx={x(point.value)}
          cy={LINE - 30 + 3 * (points.length - 1 - i)}
          r="4.5"
        />
      ))}
      {landing && (
        <g class="scale-landing">
          <path d={`M${x(landing.min)} ${NUMBERS + 8} v8 H${x(landing.max)} v-8`} />
          <text
            x={Math.min(WIDTH - 70, Math.max(70, (x(landing.min) + x(landing.max)) / 2))}
            y={NUMBERS + 31}
          >
            should land here
          </text>
        </g>
      )}
      <path
        class={present.verdict === "wait" ? "scale-pointer scale-pointer-early" : "scale-pointer"}
        d={`M${at} ${LINE - 2} l-13 -34 h26 Z`}
      />
      <text class="scale-value" x={Math.min(WIDTH - 34, Math.max(34, at))} y="22">
        {shownNumber(present.value)}
      </text>
    </svg>
  );
}
