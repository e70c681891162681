import { describe, expect, it } from "vitest";
import { coAirFree, coCo2Ratio } from "../../src/combustion/carbon-monoxide.ts";
import { burn, near } from "./support.ts";

describe("CO air-free", () => {
  it.each([
    // Trade articles on ANSI Z21 air-free CO, each with the formula CO x 20.9/(20.9 - O2), at their own rounding.
    ["87 ppm at 5 % is 114", 87, 5, 114, 0.5],
    ["50 ppm at 7 % is 75", 50, 7, 75, 0.5],
    ["1200 ppm at 6 % is 1680, rounded to tens", 1200, 6, 1680, 5],
    // The same formula, independent arithmetic.
    ["87 ppm at 5 % is 114.36", 87, 5, 114.36, 0.005],
    ["50 ppm at 7 % is 75.2", 50, 7, 75.2, 0.05],
    ["1200 ppm at 6 % is 1683", 1200, 6, 1683, 0.5],
    ["100 ppm at 9 % is 175.6", 100, 9, 175.6, 0.05],
    ["200 ppm at 8 % is 324.0", 200, 8, 324, 0.05],
    ["no oxygen changes nothing", 77, 0, 77, 0],
    ["no CO stays none", 0, 12, 0, 0],
  ])("%s", (_, co, o2, expected, tolerance) => near(coAirFree(co, o2), expected, tolerance));

  // 1. BImSchV (2010) annex 2 corrects to a reference O2 with 21: E_B = E_M (21 - O2,B)/(21 - O2). Taken here: 20.9, the
  // formula of the ANSI Z21 trade; the law's figure is lower by up to 0.5 % at O2 10 %.
  it.each([
    [87, 5],
    [50, 7],
    [100, 10],
  ])("%s ppm at %s agrees with the German law's 21 within 0.5", (co, o2) => {
    const law = (co * 21) / (21 - o2);
    near(coAirFree(co, o2), law, law * 0.005);
  });

  // The other form, CO x CO2max/CO2 (from memory), rests on 20.95.
  it("agrees with CO x CO2max/CO2 within 0.5 %", () => {
    const gas = burn({ fuel: "natural-gas", o2: 8, co: 120 });
    const other = (120 * gas.co2Max) / gas.co2;
    near(gas.coAirFree, other, other * 0.005);
  });

  it.each([
    ["just short of nearly air", 100, 20.49],
    ["nearly air", 100, 20.5],
    ["the singular point", 100, 20.9],
    ["beyond air", 100, 21],
    ["negative O2", 100, -0.1],
    ["negative CO", -1, 5],
    ["CO not a number", Number.NaN, 5],
    ["O2 not a number", 100, Number.NaN],
    ["infinite CO", Number.POSITIVE_INFINITY, 5],
  ])("%s: a number only below 20.5", (name, co, o2) => {
    const result = coAirFree(co, o2);
    if (name === "just short of nearly air") near(result, (100 * 20.9) / 0.41, 0.01);
    else expect(result).toBeNull();
  });
});

describe("CO/CO2 ratio, both vol-% (BS 7967 and the UK industry's 2013 note use it; arithmetic)", () => {
  it.each([
    ["350 ppm and 8.8 %", 350, 8.8, 0.00398],
    ["350 ppm and 9.0 %", 350, 9, 0.00389],
    ["80 ppm and 10 %", 80, 10, 0.0008],
    ["72 ppm and 9 %", 72, 9, 0.0008],
  ])("%s", (_, co, co2, expected) => near(coCo2Ratio(co, co2), expected, 0.000005));
  it.each([
    ["no CO2", 10, 0],
    ["negative CO2", 10, -1],
    ["negative CO", -1, 9],
    ["not a number", Number.NaN, 9],
  ])("%s is null", (_, co, co2) => expect(coCo2Ratio(co, co2)).toBeNull());
});
