import psychrolib from "psychrolib";
import { describe, expect, it } from "vitest";
import { atmosphericPressure } from "../../src/combustion/atmosphere.ts";
import { near } from "./support.ts";

psychrolib.SetUnitSystem(psychrolib.SI);

describe("ISO 2533:1975, table 5, geopotential altitude, Pa", () => {
  it.each([
    [0, 101_325.0],
    [500, 95_460.8],
    [1000, 89_874.6],
    [1500, 84_556.0],
  ])("%s m", (metres, pascal) => near(atmosphericPressure(metres), pascal, 0.06));
  // Not read in the table: independent arithmetic with the standard's formula.
  it.each([
    [2000, 79_495.2],
    [3000, 70_108.5],
  ])("%s m (recalculated)", (metres, pascal) => near(atmosphericPressure(metres), pascal, 0.06));
});

// The standard's own way from a height h to the geopotential one, r h/(r + h), with its r of 6 356 766 m (from memory).
const geopotential = (metres: number) => (6_356_766 * metres) / (6_356_766 + metres);

describe("ISO 2533:1975, table 5, geometric altitude: taken as geopotential, the same within 0.02 %", () => {
  it.each([
    [500, 95_461.3],
    [1000, 89_876.3],
    [1500, 84_559.7],
    [2000, 79_501.4],
    [3000, 70_121.1],
  ])("%s m", (metres, pascal) => {
    near(atmosphericPressure(metres), pascal, pascal * 0.0002);
    near(atmosphericPressure(geopotential(metres)), pascal, 0.05);
  });
});

describe("against psychrolib 1.1.1 (ASHRAE Fundamentals, chapter 1)", () => {
  it.each([-500, 0, 500, 1000, 2000, 3000, 4000, 6000])("%s m", (metres) => {
    near(atmosphericPressure(metres), psychrolib.GetStandardAtmPressure(metres), 1);
  });
});

describe("range", () => {
  it.each([
    [-501, false],
    [-500, true],
    [6000, true],
    [6001, false],
    [Number.NaN, false],
  ])("%s m: %s", (metres, valid) => expect(atmosphericPressure(metres) !== null).toBe(valid));
});
