import type { PathLook, Shape, TextLook, TraceDrawing } from "../trace-drawing.ts";

const STROKES: Readonly<Record<PathLook, string>> = {
  turn: 'stroke-width="1" stroke-dasharray="2 4"',
  frame: 'stroke-width="1.5"',
  tick: 'stroke-width="1"',
  edge: 'stroke-width="1.5" stroke-dasharray="7 5"',
  "line-high": 'stroke-width="2"',
  "line-low": 'stroke-width="1.25"',
  "early-high": 'stroke-width="2"',
  "early-low": 'stroke-width="2"',
  "point-high": 'stroke-width="1.5" fill="#000000"',
  "point-low": 'stroke-width="1.5" fill="#ffffff"',
};

const TEXTS: Readonly<Record<TextLook, string>> = {
  sign: 'font-size="11.5" text-anchor="middle"',
  label: 'font-size="12" font-weight="bold"',
  number: 'font-size="11" text-anchor="end"',
  time: 'font-size="11" text-anchor="middle"',
};

/** The drawing of a trace as SVG that needs no style sheet, black and grey, its letters in a font family. */
export function traceSvg({ width, height, shapes }: TraceDrawing, family: string): string {
  const inside = shapes.map((shape) => drawn(shape, family)).join("");
  return `<svg xmlns="http://www.w3.org/2000/svg" viewBox="0 0 ${width} ${height}" width="${width}" height="${height}">${inside}</svg>`;
}

function drawn(shape: Shape, family: string): string {
  switch (shape.kind) {
    case "path":
      return shape.look.startsWith("point")
        ? `<path d="${shape.d}" stroke="#000000" ${STROKES[shape.look]}/>`
        : `<path d="${shape.d}" fill="none" stroke="#000000" ${STROKES[shape.look]}/>`;
    case "rect":
      return `<rect x="${shape.x}" y="${shape.y}" width="${shape.width}" height="${shape.height}" fill="#888888" fill-opacity="0.3"/>`;
    case "text":
      return `<text x="${shape.x}" y="${shape.y}" font-family="${family}" fill="#000000" ${TEXTS[shape.look]}>${escaped(shape.text)}</text>`;
  }
}

function escaped(text: string): string {
  return text.replaceAll("&", "&amp;").replaceAll("<", "&lt;").replaceAll(">", "&gt;");
}
