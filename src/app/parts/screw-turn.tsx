import { direction } from "../wording.ts";

/** Smallest and largest sweep of the arrow, degrees: a tiny turn must still show its direction. */
const LEAST = 40;
const MOST = 320;
const RADIUS = 40;

/** A slotted screw seen from the front, with an arrow round it: which way, and about how far. */
export function ScrewTurn({ turns }: { readonly turns: number }) {
  const sweep = Math.min(MOST, Math.max(LEAST, Math.abs(turns) * 360));
  const clockwise = direction(turns) === "clockwise";
  const end = point(clockwise ? sweep : -sweep);
  // The arrow head points along the tangent at the arrow's end.
  const heading = clockwise ? sweep : 180 - sweep;
  return (
    <svg class="screw-turn" viewBox="-54 -54 108 108" aria-hidden="true">
      <circle r="26" class="screw-turn-head" />
      <path d="M-16 0 H16" class="screw-turn-slot" transform="rotate(-35)" />
      <path
        class="screw-turn-arc"
        d={`M0 ${-RADIUS} A${RADIUS} ${RADIUS} 0 ${sweep > 180 ? 1 : 0} ${clockwise ? 1 : 0} ${end.x} ${end.y}`}
      />
      <path
        class="screw-turn-tip"
        d="M13 0 L-5 -10 L-5 10 Z"
        transform={`translate(${end.x} ${end.y}) rotate(${heading})`}
      />
    </svg>
  );
}

/** The point of the arrow's circle at an angle clockwise from the top, degrees. */
function point(degrees: number): { readonly x: number; readonly y: number } {
  const radians = (degrees * Math.PI) / 180;
  return { x: round(RADIUS * Math.sin(radians)), y: round(-RADIUS * Math.cos(radians)) };
}

function round(value: number): number {
  return Math.round(value * 100) / 100;
}
