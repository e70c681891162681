import fc from "fast-check";
import { describe, expect, test } from "vitest";
import { traceSvg } from "../../src/record/report/trace-svg.ts";
import { traceOf } from "../../src/record/trace.ts";
import { drawTrace, type Shape, traceSaid } from "../../src/record/trace-drawing.ts";
import { foldVisit } from "../../src/visit/fold.ts";
import { sheet } from "../support/sheets.ts";
import { talk } from "../support/talk.ts";

const traced = (...phrases: string[]) => {
  const trace = traceOf(foldVisit(talk(phrases, { sheet: sheet(), units: "si" }).visit));
  if (!trace) throw new Error("expected a trace");
  return trace;
};

const TRACE = traced(
  "high fire CO2 ten point five, CO eighty",
  "half a turn counterclockwise",
  "@210 CO2 ten point two, CO sixty",
  "@300 CO2 nine point two, CO fifty",
  "low fire CO2 nine",
  "a tenth clockwise",
  "CO2 nine point one",
);

const looks = (shapes: readonly Shape[]) => shapes.map(({ look }) => look);
const texts = (shapes: readonly Shape[], wanted: Shape["look"]) =>
  shapes.flatMap((shape) => (shape.kind === "text" && shape.look === wanted ? [shape.text] : []));

describe("the trace as shapes", () => {
  const { shapes, width } = drawTrace(TRACE, 600, null);
  test("panels, signs of the turns, times of day", () => {
    expect(texts(shapes, "label")).toEqual(["CO2, %", "CO, ppm"]);
    expect(texts(shapes, "sign")).toEqual(["H ½ ↺", "L 1/10 ↻"]);
    expect(texts(shapes, "time").every((text) => /^08:\d\d$/.test(text))).toBe(true);
    expect(width).toBe(600);
  });
  test("high and low fire, settled and too early, are shapes of their own", () =>
    expect(new Set(looks(shapes))).toEqual(
      new Set([
        ...["turn", "sign", "label", "band", "edge", "frame", "tick", "number", "time"],
        ...["line-high", "line-low", "early-high", "point-high", "point-low"],
      ]),
    ));
  test("nothing empty is drawn", () =>
    expect(shapes.every((shape) => shape.kind !== "path" || shape.d !== "")).toBe(true));
  test("a zone moves the times of day", () =>
    expect(texts(drawTrace(TRACE, 600, "Europe/Vienna").shapes, "time")[0]).toMatch(/^09:/));
  test("turns too close to each other for their signs still have their lines", () => {
    const close = traced(
      "high fire CO2 9",
      ..."12345678".split("").map((i) => `@${200 + Number(i)} a tenth in`),
      "@9000 CO2 9",
    );
    const drawn = drawTrace(close, 300, null).shapes;
    expect(texts(drawn, "sign").length).toBeLessThan(4);
    expect(drawn.find(({ look }) => look === "turn")).toMatchObject({
      d: expect.stringMatching(/^(M[^M]+){8}$/),
    });
  });
});

test("every point is inside of its box, however wide that is", () =>
  fc.assert(
    fc.property(fc.integer({ min: 160, max: 2000 }), fc.integer({ min: 60, max: 300 }), (width, panel) => {
      const { height, shapes } = drawTrace(TRACE, width, null, panel);
      for (const shape of shapes) {
        const points =
          shape.kind === "path"
            ? [...shape.d.matchAll(/[ML](-?[\d.]+) (-?[\d.]+)/g)].map(
                ([, x, y]) => [Number(x), Number(y)] as const,
              )
            : [[shape.x, shape.y] as const];
        for (const [x, y] of points) {
          expect(x).toBeGreaterThanOrEqual(0);
          expect(x).toBeLessThanOrEqual(width);
          expect(y).toBeGreaterThanOrEqual(0);
          expect(y).toBeLessThanOrEqual(height);
        }
      }
    }),
  ));

test("in words", () =>
  expect(traceSaid(TRACE)).toBe(
    "CO2, %, high fire: from 10.5 to 9.2 in 3 readings; CO2, %, low fire: from 9 to 9.1 in 2 readings; " +
      "CO, ppm, high fire: from 80 to 50 in 3 readings; 2 turns of a screw",
  ));

test("as SVG it needs no style sheet, and is black and grey", () => {
  const svg = traceSvg(drawTrace(TRACE, 600, null), "Serif");
  expect(svg).toMatch(/^<svg xmlns="http:\/\/www\.w3\.org\/2000\/svg" viewBox="0 0 600 \d+"/);
  expect(svg).not.toContain("class=");
  for (const [, red, green, blue] of svg.matchAll(/#(..)(..)(..)"/g))
    expect([red, green]).toEqual([green, blue]);
});

test("what stands in a text of it cannot become an element", () => {
  const shapes = [{ kind: "text", look: "label", x: 0, y: 0, text: "<b>&" } as const];
  expect(traceSvg({ width: 1, height: 1, shapes }, "Serif")).toContain(">&lt;b&gt;&amp;</text>");
});
