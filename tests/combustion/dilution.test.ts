import { describe, expect, it } from "vitest";
import { co2FromO2, co2Max, lambdaFromO2, o2FromCo2 } from "../../src/combustion/dilution.ts";
import { type FuelId, gasOf } from "../../src/combustion/fuel.ts";
import { stoichiometry } from "../../src/combustion/stoichiometry.ts";
import { burn, near } from "./support.ts";

describe("excess air from O2: US DOE Steam Tip Sheet 4 (January 2006), natural gas", () => {
  // Rounding of the sheet: 0.05 in O2, which is the column it was read from.
  const slope = 0.01;
  it.each<[FuelId, number, number]>([
    ["methane", 2.0, 9.5],
    ["methane", 3.0, 15.0],
    ["methane", 5.0, 28.1],
    ["methane", 7.0, 44.9],
    ["methane", 10.0, 81.6],
    ["natural-gas", 2.0, 9.5],
    ["natural-gas", 3.0, 15.0],
    ["natural-gas", 5.0, 28.1],
    ["natural-gas", 7.0, 44.9],
    ["natural-gas", 10.0, 81.6],
  ])("%s O2 %s is %s", (fuel, o2, percent) => {
    near(burn({ fuel, o2 }).excessAirPercent, percent, percent * slope);
  });
  it("is the exact form: the short form 20.95/(20.95 - O2) says 31.4 % at O2 5 %", () => {
    near(100 * (20.95 / (20.95 - 5) - 1), 31.35, 0.05);
    near(burn({ fuel: "methane", o2: 5 }).excessAirPercent, 28.1, 0.05);
  });
});

describe("CO2 from O2 with 20.95 (independent recalculation, not published)", () => {
  // Methane at O2 3 %: 11.70 as rounded makes 10.02, its 11.7006 makes 10.03.
  it.each<[FuelId, number, number]>([
    ["methane", 0, 11.7],
    ["methane", 3, 10.03],
    ["methane", 4.5, 9.19],
    ["methane", 5, 8.91],
    ["methane", 6, 8.35],
    ["methane", 9, 6.67],
    ["propane", 0, 13.72],
    ["propane", 3, 11.76],
    ["propane", 4.5, 10.77],
    ["propane", 5, 10.45],
    ["propane", 6, 9.79],
    ["propane", 9, 7.83],
  ])("%s O2 %s -> CO2 %s", (fuel, o2, co2) => {
    near(co2FromO2(fuel, o2), co2, 0.006);
    near(burn({ fuel, o2 }).co2, co2, 0.006);
  });
});

describe("CO2 from O2 in other air: the law's 21 % (arithmetic with 1. BImSchV's air, not published)", () => {
  // The oxygen of air alone moves CO2 by 0.02 at most between O2 0 and 9 %.
  it.each([
    [3, 10.03],
    [4.5, 9.19],
    [5, 8.91],
    [6, 8.36],
    [9, 6.69],
  ])("methane O2 %s: %s", (o2, co2) => near(co2FromO2("methane", o2), co2, 0.021));
});

describe("O2 at the excess air of Steam Tip Sheet 4, methane (independent recalculation, not published)", () => {
  it.each([
    [9.5, 2.01],
    [15.0, 3.01],
    [28.1, 5.0],
    [44.9, 7.0],
    [81.6, 9.99],
  ])("%s per cent: O2 %s", (percent, o2) => {
    // Excess air grows with O2, so that O2 lies within its rounding where the excess of half a digit to each side encloses it.
    const excess = (at: number) => burn({ fuel: "methane", o2: at }).excessAirPercent;
    expect(excess(o2 - 0.005)).toBeLessThan(percent);
    expect(excess(o2 + 0.005)).toBeGreaterThan(percent);
  });
});

describe("air ratio (independent recalculation, not published): lambda, O2, CO2", () => {
  it.each<[FuelId, number, number, number]>([
    ["methane", 1.0, 0, 11.7],
    ["methane", 1.1, 2.1, 10.52],
    ["methane", 1.2, 3.83, 9.56],
    ["methane", 1.3, 5.26, 8.76],
    ["methane", 1.4, 6.47, 8.09],
    ["methane", 1.5, 7.51, 7.51],
    ["methane", 2.0, 11.05, 5.53],
    ["propane", 1.1, 2.06, 12.37],
    ["propane", 1.2, 3.75, 11.26],
    ["propane", 1.3, 5.17, 10.34],
    ["propane", 1.4, 6.37, 9.55],
    ["propane", 1.5, 7.4, 8.88],
    ["propane", 2.0, 10.93, 6.56],
  ])("%s lambda %s at O2 %s, CO2 %s", (fuel, lambda, o2, co2) => {
    near(lambdaFromO2(stoichiometry(gasOf(fuel)), o2), lambda, 0.002);
    near(o2FromCo2(fuel, co2), o2, 0.015);
  });
});

describe("EPA method 3B excess air, 100 O2/(0.264 N2 - O2) (from memory)", () => {
  // 0.264 is the O2/N2 of air rounded; N2 here is what O2 and CO2 leave of the dry gas: 1 % relative.
  it.each<[FuelId, number]>([
    ["methane", 3],
    ["methane", 6],
    ["propane", 3],
    ["propane", 6],
    ["natural-gas", 4.5],
  ])("%s O2 %s", (fuel, o2) => {
    const { co2, excessAirPercent } = burn({ fuel, o2 });
    const epa = (100 * o2) / (0.264 * (100 - o2 - co2) - o2);
    near(excessAirPercent, epa, epa * 0.01);
  });
});

describe("ends of the range", () => {
  it.each<[string, number | null, number | null]>([
    ["O2 0 gives CO2max", co2FromO2("propane", 0), co2Max("propane")],
    ["O2 of air gives no CO2", co2FromO2("propane", 20.95), 0],
    ["O2 above air", co2FromO2("propane", 20.96), null],
    ["O2 below 0", co2FromO2("propane", -0.01), null],
    ["O2 not a number", co2FromO2("propane", Number.NaN), null],
    ["CO2 0 gives air", o2FromCo2("propane", 0), 20.95],
    ["CO2 below 0", o2FromCo2("propane", -0.01), null],
    ["CO2max gives no O2", o2FromCo2("propane", co2Max("propane")), 0],
    ["CO2max rounded up to two decimals", o2FromCo2("propane", 13.72), 0],
    ["CO2 above CO2max", o2FromCo2("propane", 13.73), null],
    ["CO2 not a number", o2FromCo2("propane", Number.NaN), null],
  ])("%s", (_, actual, expected) => expect(actual).toBe(expected));
});
