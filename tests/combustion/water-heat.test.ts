import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { type WaterCircuit, type WaterHeat, waterHeat } from "../../src/combustion/water-heat.ts";
import { factor } from "../../src/measure/scale.ts";
import { near } from "./support.ts";

/** The heat of a circuit that must be possible. */
function heat(flow: number, supplyTemperature: number, returnTemperature: number): WaterHeat {
  const result = waterHeat({ flow, supplyTemperature, returnTemperature });
  if (!result.ok) throw new Error(JSON.stringify(result.problems));
  return result.waterHeat;
}

describe("10 L/min from 60 to 80 °C, metered at 60 °C", () => {
  it("13.73 kW (independent recalculation, not published)", () =>
    near(heat(10, 80, 60).waterHeat, 13.73, 0.005));
  it("the usual 1 kg/L and 4.186 kJ/(kg K) say 13.95: 1.6 % too much, by the density of hot water", () =>
    near((10 / 60) * 4.186 * 20, heat(10, 80, 60).waterHeat * 1.016, 0.01));
  it("steam table (Ohio): 251.2 and 335.0 kJ/kg, with 983.2 kg/m3 from memory: 13.73 kW", () =>
    near(heat(10, 80, 60).waterHeat, (0.01 / 60) * 983.2 * (335.0 - 251.2), 0.02));
});

describe("US rule Btu/h = 500 x gal/min x rise in °F (common practice, no source)", () => {
  const litres = factor("[gal_us]/min", "L/min");
  const celsius = (fahrenheit: number) => (fahrenheit - 32) / 1.8;
  const perGallonAndDegree = (at: number) => heat(litres, celsius(at + 1), celsius(at)).waterHeatBtuPerHour;
  // 500.2 at 60 °F and about 492 at 140 °F: from memory.
  it("500.2 at 60 °F", () => near(perGallonAndDegree(60), 500.2, 0.5));
  it("492 at 140 °F", () => near(perGallonAndDegree(140), 492, 1));
  it("8 gal/min by 20 °F is 80 000, at the 60 °F that the rule is made for", () =>
    near(heat(8 * litres, celsius(80), celsius(60)).waterHeatBtuPerHour, 80_000, 200));
});

describe("impossible input gives every problem", () => {
  it.each<[string, WaterCircuit, readonly string[]]>([
    ["no flow", { flow: 0, supplyTemperature: 80, returnTemperature: 60 }, ["flow"]],
    ["negative flow", { flow: -1, supplyTemperature: 80, returnTemperature: 60 }, ["flow"]],
    ["too much flow", { flow: 1001, supplyTemperature: 80, returnTemperature: 60 }, ["flow"]],
    ["flow no number", { flow: Number.NaN, supplyTemperature: 80, returnTemperature: 60 }, ["flow"]],
    ["ice", { flow: 10, supplyTemperature: 5, returnTemperature: -0.1 }, ["returnTemperature"]],
    ["steam", { flow: 10, supplyTemperature: 151, returnTemperature: 60 }, ["supplyTemperature"]],
    ["pipes changed over", { flow: 10, supplyTemperature: 60, returnTemperature: 61 }, ["supplyTemperature"]],
    [
      "all at once",
      { flow: Number.POSITIVE_INFINITY, supplyTemperature: Number.NaN, returnTemperature: -5 },
      ["flow", "supplyTemperature", "returnTemperature"],
    ],
  ])("%s", (_, circuit, paths) => {
    const result = waterHeat(circuit);
    expect(result.ok ? [] : result.problems.map(({ path }) => path)).toEqual(paths);
    for (const { message } of result.ok ? [] : result.problems) expect(message).toMatch(/^expected .*, got /);
  });
  it.each([
    [1000, 150, 0],
    [0.01, 60, 60],
  ])("%s L/min, %s and %s °C are possible", (flow, supply, back) =>
    expect(heat(flow, supply, back).waterHeat).toBeGreaterThanOrEqual(0),
  );
});

describe("always", () => {
  const between = (min: number, max: number) => fc.double({ min, max, noNaN: true });
  it("in proportion to the flow; more with a hotter supply; near the rule of 4.186 kJ/(kg K)", () => {
    fc.assert(
      fc.property(between(0.1, 400), between(0, 74), between(0.1, 74), (flow, back, rise) => {
        const { waterHeat: once } = heat(flow, back + rise, back);
        near(heat(2 * flow, back + rise, back).waterHeat / once, 2, 1e-9);
        expect(heat(flow, back + rise + 1, back).waterHeat).toBeGreaterThan(once);
        // 1 kg/L and 4.186 kJ/(kg K) are never further off than 10 %.
        near(once, (flow / 60) * 4.186 * rise, (flow / 60) * 4.186 * rise * 0.1);
      }),
    );
  });
  it("whatever the numbers, the answer is finite or a problem", () => {
    fc.assert(
      fc.property(fc.double(), fc.double(), fc.double(), (flow, supplyTemperature, returnTemperature) => {
        const result = waterHeat({ flow, supplyTemperature, returnTemperature });
        const finite = result.ok && Object.values(result.waterHeat).every(Number.isFinite);
        expect(finite || (!result.ok && result.problems.length > 0)).toBe(true);
      }),
      { numRuns: 1000 },
    );
  });
});
