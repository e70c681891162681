import type { Line } from "./pdf-piece.ts";

const INSET = 19;
/** An engraved plate: a double rule, and a slotted screw head in each upper corner. */
export function frame(width: number, height: number): Line[] {
  const rule = (inset: number, lineWidth: number): Line => ({
    type: "rect",
    x: inset,
    y: inset,
    w: width - 2 * inset,
    h: height - 2 * inset,
    lineWidth,
  });
  const [x, y] = [INSET + 12.5, INSET + 12.5];
  const screws = [x, width - x].flatMap((at): Line[] => [
    { type: "ellipse", x: at, y, r1: SCREW, r2: SCREW, lineWidth: 0.9 },
    { type: "line", x1: at - 3.6, y1: y + 2.2, x2: at + 3.6, y2: y - 2.2, lineWidth: 0.9 },
  ]);
  return [rule(INSET, 1.6), rule(INSET + 4, 0.5), ...screws];
}

const SCREW = 4.8;
