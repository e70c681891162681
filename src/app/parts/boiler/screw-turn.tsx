import { direction } from "../../../record/wording.ts";

/** A tiny turn must still show its direction, degrees. */
const LEAST = 40;
/** More rounds than these are not drawn. */
const MOST = 3 * 360;
/** The arrow begins this far from the middle, and each round lies so much further out. */
const RADIUS = 37;
const ROUND = 8;

/** A slotted screw seen from the front, with an arrow round it: which way, and about how far, round upon round. */
export function ScrewTurn({ turns }: { readonly turns: number }) {
  const sweep = Math.min(MOST, Math.max(LEAST, Math.abs(turns) * 360));
  const side = direction(turns) === "clockwise" ? 1 : -1;
  const steps = Math.ceil(sweep / 6);
  const path = Array.from({ length: steps + 1 }, (_, i) => point((sweep * i) / steps, side));
  const end = point(sweep, side);
  const reach = RADIUS + (ROUND * sweep) / 360 + 16;
  return (
    <svg class="screw-turn" viewBox={`${-reach} ${-reach} ${2 * reach} ${2 * reach}`} aria-hidden="true">
      <circle r="25" class="screw-turn-head" />
      <path d="M-16 0 H16" class="screw-turn-slot" transform="rotate(-35)" />
      <path d={`M0 ${-RADIUS + 7} V${-RADIUS - 7}`} class="screw-turn-start" />
      <path d={`M${path.map(({ x, y }) => `${x} ${y}`).join(" L")}`} class="screw-turn-arc" />
      {/* The arrow head points along the tangent at the arrow's end. */}
      <path
        class="screw-turn-tip"
        d="M14 0 L-5 -11 L-5 11 Z"
        transform={`translate(${end.x} ${end.y}) rotate(${side > 0 ? sweep : 180 - sweep})`}
      />
    </svg>
  );
}

/** The point of the arrow at an angle from the top, degrees, to the right with 1 and to the left with -1. */
function point(degrees: number, side: 1 | -1): { readonly x: number; readonly y: number } {
  const radians = (degrees * Math.PI) / 180;
  const radius = RADIUS + (ROUND * degrees) / 360;
  return { x: round(side * radius * Math.sin(radians)), y: round(-radius * Math.cos(radians)) };
}

function round(value: number): number {
  return Math.round(value * 100) / 100;
}
