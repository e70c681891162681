import psychrolib from "psychrolib";
import { describe, it } from "vitest";
import type { AnyFuel, FuelId } from "../../src/combustion/fuel.ts";
import { burn, GASES, near } from "./support.ts";

psychrolib.SetUnitSystem(psychrolib.SI);

/** Stack at this O2 and flue temperature with combustion air of 20 °C. */
const stack = (fuel: FuelId, o2: number, flueTemperature: number, airTemperature = 20) =>
  burn({ fuel, o2, flueTemperature, airTemperature });

describe("US DOE Steam Tip Sheet 4 (January 2006): gross efficiency, natural gas, dry air", () => {
  // The sheet prints neither its gas nor its heat capacities. With 80 °F air, pure methane comes out 0.3 to 0.65 points
  // higher: the sheet's loss without any rise is 0.1 points more and grows 2 % faster. Pipeline gas makes less water and
  // so comes out 0.1 to 0.2 points higher still. Hence 0.7 and 0.8 points. Of fifteen unpublished recalculated values for
  // methane, three lie up to 0.003 points outside their rounding, why is not settled, so that they are no rows here.
  const fahrenheit = (f: number) => ((f - 32) * 5) / 9;
  it.each([
    [2, 200, 85.4],
    [2, 300, 83.1],
    [2, 400, 80.8],
    [2, 500, 78.4],
    [2, 600, 76.0],
    [3, 200, 85.2],
    [3, 300, 82.8],
    [3, 400, 80.4],
    [3, 500, 77.9],
    [3, 600, 75.4],
    [5, 200, 84.7],
    [5, 300, 82.1],
    [5, 400, 79.5],
    [5, 500, 76.7],
    [5, 600, 74.0],
    [7, 200, 84.1],
    [7, 300, 81.2],
    [7, 400, 78.2],
    [7, 500, 75.2],
    [7, 600, 72.1],
    [10, 200, 82.8],
    [10, 300, 79.3],
    [10, 400, 75.6],
    [10, 500, 71.9],
    [10, 600, 68.2],
  ])("O2 %s, %s °F above the air: %s", (o2, rise, percent) => {
    const of = (fuel: FuelId) =>
      stack(fuel, o2, fahrenheit(80 + rise), fahrenheit(80)).efficiencyGrossPercent;
    near(of("methane"), percent, 0.7);
    near(of("natural-gas"), percent, 0.8);
  });
});

describe("latent heat, % of net (independent recalculation, not published)", () => {
  it.each<[FuelId, number]>([
    ["methane", 10.97],
    ["propane", 8.62],
  ])("%s is %s", (fuel, percent) => {
    const gas = stack(fuel, 3, 70);
    const grossOverNet = (gas.efficiencyNetPercent ?? 0) / (gas.efficiencyGrossPercent ?? 0);
    near((gas.lossLatentPercent ?? 0) * grossOverNet, percent, 0.006);
  });
});

describe("latent loss above the dew point, % of gross", () => {
  it.each<[FuelId, number, number]>([
    // Independent recalculation from ISO 6976:2016, not published.
    ["methane", 9.88, 0.006],
    ["propane", 7.93, 0.006],
    // ASHRAE 103 latent loss: natural gas 9.55, propane 7.99 (from memory). Its gases are other than ours.
    ["natural-gas", 9.55, 0.3],
    ["propane", 7.99, 0.3],
  ])("%s is %s", (fuel, percent, tolerance) =>
    near(stack(fuel, 3, 70).lossLatentPercent, percent, tolerance),
  );
});

describe("per cent of the water that condenses at 30, 35, 40, 45, 50, 55 °C (independent recalculation, not published)", () => {
  it.each<[FuelId, number, readonly number[]]>([
    ["methane", 3, [78.2, 70.7, 60.8, 47.8, 30.8, 8.1]],
    ["methane", 4.5, [76.2, 68, 57.2, 43.1, 24.5, 0]],
    ["methane", 6, [73.8, 64.8, 52.9, 37.4, 16.9, 0]],
    ["propane", 4.5, [69.5, 59.1, 45.3, 27.2, 3.4, 0]],
  ])("%s O2 %s", (fuel, o2, shares) => {
    const none = stack(fuel, o2, 90).lossLatentPercent ?? 0;
    for (const [index, share] of shares.entries())
      near(100 - (100 * (stack(fuel, o2, 30 + 5 * index).lossLatentPercent ?? 0)) / none, share, 0.1);
  });
});

describe("efficiency of methane at O2 4.5 % (independent recalculation, not published)", () => {
  it.each([
    [60, 98.04, 88.35, 0.006],
    [50, 101.2, 91.2, 0.06],
    [45, 103.5, 93.3, 0.06],
    [35, 106.7, 96.2, 0.06],
  ])("flue %s °C: net %s, gross %s", (celsius, net, gross, tolerance) => {
    const gas = stack("methane", 4.5, celsius);
    near(gas.efficiencyNetPercent, net, tolerance);
    near(gas.efficiencyGrossPercent, gross, tolerance);
  });
});

describe("dew point, °C, dry air at sea level (independent recalculation with IF97, not published)", () => {
  it.each<[string, AnyFuel, number]>([
    ["C2H6", GASES.ethane, 56.2],
    ["G25", GASES.g25, 58.9],
    ["ISO 6976 annex D example 1", GASES.annexD1, 58.9],
  ])("%s without excess air: %s", (_, fuel, celsius) => near(burn({ fuel, o2: 0 }).dewPoint, celsius, 0.05));
  it.each<[FuelId, number, number]>([
    ["methane", 0, 59.2],
    ["methane", 2.1, 57.4],
    ["methane", 3.83, 55.7],
    ["methane", 5.26, 54.1],
    ["methane", 6.47, 52.7],
    ["methane", 7.51, 51.4],
    ["methane", 11.05, 46.0],
    ["propane", 0, 54.9],
    ["propane", 2.06, 53.1],
    ["propane", 3.75, 51.4],
    ["propane", 5.17, 49.9],
    ["propane", 6.37, 48.5],
    ["propane", 7.4, 47.2],
    ["propane", 10.93, 41.9],
    ["butane", 0, 54.1],
  ])("%s O2 %s: %s", (fuel, o2, celsius) => near(burn({ fuel, o2 }).dewPoint, celsius, 0.065));
  it("handbooks say 55 to 57 for natural gas (from memory): at lambda 1.1 to 1.2", () => {
    near(burn({ fuel: "natural-gas", o2: 3 }).dewPoint, 56, 1);
  });
});

describe("dew point at altitude, methane at lambda 1.25 (independent recalculation, not published)", () => {
  it.each([
    [0, 54.9],
    [1000, 52.4],
    [2000, 49.9],
    [3000, 47.4],
  ])("%s m: %s", (altitude, celsius) =>
    near(burn({ fuel: "methane", o2: 4.573, altitude }).dewPoint, celsius, 0.065),
  );
});

describe("dew point against psychrolib 1.1.1 (the ASHRAE formula)", () => {
  it.each<[FuelId, number, number]>([
    ["natural-gas", 0, 0],
    ["natural-gas", 4.5, 1500],
    ["propane", 9, 0],
    ["butane", 15, 3000],
  ])("%s O2 %s at %s m", (fuel, o2, altitude) => {
    const gas = burn({ fuel, o2, altitude });
    const water = gas.wetFlueVolume - gas.dryFlueVolume;
    const vapour = (psychrolib.GetStandardAtmPressure(altitude) * water) / gas.wetFlueVolume;
    near(gas.dewPoint, psychrolib.GetTDewPointFromVapPres(90, vapour), 0.02);
  });
});
