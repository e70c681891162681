import psychrolib from "psychrolib";
import { describe, expect, it } from "vitest";
import { co2Max } from "../../src/combustion/dilution.ts";
import type { FuelId } from "../../src/combustion/fuel.ts";
import { burn, near } from "./support.ts";

psychrolib.SetUnitSystem(psychrolib.SI);

/** Stack at this O2 and flue temperature with combustion air of 20 °C. */
const stack = (fuel: FuelId, o2: number, flueTemperature: number, airTemperature = 20) =>
  burn({ fuel, o2, flueTemperature, airTemperature });

/** Sensible loss in % of the net heating value, as Siegert's formula counts it. */
const netLoss = (fuel: FuelId, o2: number, flueTemperature: number) => {
  const gas = stack(fuel, o2, flueTemperature);
  const netOverGross = (gas.efficiencyGrossPercent ?? 0) / (gas.efficiencyNetPercent ?? 0);
  return (gas.lossDryPercent ?? 0) / netOverGross;
};

/** O2 form of Siegert's formula: 1. BImSchV of 26.01.2010, annex 2, 3.4.1. */
const siegert = (o2: number, kelvin: number, a: number, b: number) => kelvin * (a / (21 - o2) + b);

describe("Siegert, 1. BImSchV (2010) annex 2, against first principles: natural gas A 0.66, B 0.009", () => {
  // The legal constants are rounded to two and one figure: 0.4 % up to 70 °C, 2 % at 200 °C.
  it.each<[FuelId, number, number, number]>([
    ["methane", 0, 50, 0.004],
    ["methane", 3, 50, 0.004],
    ["methane", 4.5, 50, 0.004],
    ["methane", 6, 50, 0.004],
    ["methane", 9, 50, 0.004],
    ["methane", 3, 70, 0.004],
    ["methane", 4.5, 70, 0.004],
    ["methane", 9, 70, 0.004],
    ["methane", 3, 120, 0.01],
    ["methane", 3, 200, 0.02],
    ["natural-gas", 3, 50, 0.004],
    ["natural-gas", 4.5, 70, 0.004],
    ["natural-gas", 4.5, 120, 0.01],
    ["natural-gas", 4.5, 200, 0.02],
  ])("%s O2 %s, %s °C", (fuel, o2, celsius, relative) => {
    const law = siegert(o2, celsius - 20, 0.66, 0.009);
    near(netLoss(fuel, o2, celsius), law, law * relative);
  });
});

describe("Siegert, other constants", () => {
  // Flanders (decree of 8 December 2006, annex II) has A 0.65 for natural gas where Germany has 0.66; the first
  // principles side with 0.66, so Flanders is allowed 2 %.
  it("Flanders, natural gas 0.65", () => {
    const law = siegert(4.5, 50, 0.65, 0.009);
    near(netLoss("natural-gas", 4.5, 70), law, law * 0.02);
  });
  // Both have 0.63 and 0.008 for liquefied gas, 3 to 4.5 % below first principles for pure propane: 5 %.
  it.each([
    [3, 50],
    [4.5, 70],
    [6, 120],
    [4.5, 200],
  ])("propane O2 %s, %s °C lies above the law, by less than 5 per cent", (o2, celsius) => {
    const law = siegert(o2, celsius - 20, 0.63, 0.008);
    expect(netLoss("propane", o2, celsius)).toBeGreaterThan(law);
    near(netLoss("propane", o2, celsius), law, law * 0.05);
  });
  // CO2 form (1. BImSchV 1988, VDI 4206; from memory): A1 = A CO2max/21, published as 0.37 and 0.42.
  it.each<[FuelId, number, number]>([
    ["natural-gas", 0.66, 0.37],
    ["propane", 0.63, 0.42],
  ])("A1 of %s from A %s is %s", (fuel, a, a1) => near((a * co2Max(fuel)) / 21, a1, 0.01));
});

describe("sensible loss, % of net (independent recalculation, not published)", () => {
  it.each<[FuelId, number, number, number]>([
    ["methane", 0, 50, 1.214],
    ["methane", 0, 200, 7.395],
    ["methane", 3, 70, 2.287],
    ["methane", 4.5, 120, 4.927],
    ["methane", 6, 200, 9.658],
    ["methane", 9, 70, 3.198],
    ["propane", 3, 50, 1.327],
    ["propane", 4.5, 70, 2.382],
    ["propane", 4.5, 200, 8.69],
    ["propane", 6, 120, 5.188],
  ])("%s O2 %s, %s °C is %s", (fuel, o2, celsius, percent) =>
    near(netLoss(fuel, o2, celsius), percent, 0.001),
  );
});

describe("US DOE Steam Tip Sheet 4 (January 2006): gross efficiency, natural gas, dry air", () => {
  // The sheet prints neither its gas nor its heat capacities. With 80 °F air, pure methane comes out 0.3 to 0.65 points
  // higher: the sheet's loss without any rise is 0.1 points more and grows 2 % faster. Pipeline gas makes less water and
  // so comes out 0.1 to 0.2 points higher still. Hence 0.7 and 0.8 points.
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

describe("share of the water that condenses (independent recalculation, not published)", () => {
  it.each<[FuelId, number, number, number]>([
    ["methane", 3, 30, 0.782],
    ["methane", 3, 40, 0.608],
    ["methane", 3, 45, 0.478],
    ["methane", 3, 50, 0.308],
    ["methane", 3, 55, 0.081],
    ["methane", 4.5, 30, 0.762],
    ["methane", 4.5, 40, 0.572],
    ["methane", 4.5, 50, 0.245],
    ["methane", 4.5, 55, 0],
    ["methane", 6, 30, 0.738],
    ["methane", 6, 50, 0.169],
    ["propane", 4.5, 30, 0.695],
    ["propane", 4.5, 45, 0.272],
    ["propane", 4.5, 50, 0.034],
    ["propane", 4.5, 55, 0],
  ])("%s O2 %s, %s °C: %s", (fuel, o2, celsius, share) => {
    const none = stack(fuel, o2, 90).lossLatentPercent ?? 0;
    near(1 - (stack(fuel, o2, celsius).lossLatentPercent ?? 0) / none, share, 0.001);
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
