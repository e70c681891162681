import { describe, expect, it } from "vitest";
import { water } from "../../src/combustion/water.ts";
import { near } from "./support.ts";

describe("IAPWS R7-97(2012), table 5: region 1, nine figures (as several open test suites quote it)", () => {
  it.each([
    [300, 3, 0.100215168e-2, 115.331273, 4.17301218],
    [300, 80, 0.971180894e-3, 184.142828, 4.01008987],
    [500, 3, 0.1202418e-2, 975.542239, 4.65580682],
  ])("%s K, %s MPa", (kelvin, mpa, volume, enthalpy, heatCapacity) => {
    const state = water(kelvin - 273.15, mpa * 1e6);
    near(1 / (state?.density ?? Number.NaN), volume, volume * 1e-8);
    near(state?.enthalpy ?? null, enthalpy, enthalpy * 1e-8);
    near(state?.heatCapacity ?? null, heatCapacity, heatCapacity * 1e-8);
  });
});

describe("saturated water in a printed table (university course, Ohio), kJ/kg to one decimal", () => {
  // Rounding, and a hair more: it prints 335.0 where IF97 gives 334.949.
  it.each([
    [60, 19_946, 251.2],
    [80, 47_415, 335.0],
  ])("%s °C", (celsius, pascal, enthalpy) => near(water(celsius, pascal)?.enthalpy ?? null, enthalpy, 0.052));
  it("mean heat capacity from 60 to 80 °C: 4.19 kJ/(kg K)", () => {
    const rise = (water(80, 1e5)?.enthalpy ?? Number.NaN) - (water(60, 1e5)?.enthalpy ?? Number.NaN);
    near(rise / 20, 4.19, 0.005);
  });
});

describe("density, kg/m3 (from memory)", () => {
  it.each([
    [60, 983.2],
    [20, 998.2],
  ])("%s °C: %s", (celsius, density) => near(water(celsius, 101_325)?.density ?? null, density, 0.05));
});

describe("heat capacity is the slope of the enthalpy", () => {
  it.each([0.5, 20, 60, 95, 149])("%s °C", (celsius) => {
    const enthalpy = (t: number) => water(t, 5e5)?.enthalpy ?? Number.NaN;
    const slope = (enthalpy(celsius + 0.01) - enthalpy(celsius - 0.01)) / 0.02;
    near(water(celsius, 5e5)?.heatCapacity ?? null, slope, 1e-6);
  });
});

describe("range: 0 to 350 °C, above 0 to 100 MPa", () => {
  it.each([
    [-0.01, 1e5, false],
    [0, 1e5, true],
    [350, 20e6, true],
    [350.01, 20e6, false],
    [20, 0, false],
    [20, 100e6, true],
    [20, 100.1e6, false],
    [Number.NaN, 1e5, false],
    [20, Number.NaN, false],
  ])("%s °C, %s Pa: %s", (celsius, pascal, valid) => expect(water(celsius, pascal) !== null).toBe(valid));
});
