import { describe, expect, it } from "vitest";
import { co2Max } from "../../src/combustion/dilution.ts";
import type { FuelId } from "../../src/combustion/fuel.ts";
import { SIEGERT, siegertLoss } from "../../src/combustion/siegert.ts";
import { burn, near } from "./support.ts";

const GAS = SIEGERT["natural-gas"];
const LPG = SIEGERT.lpg;

/** Sensible loss in % of the net heating value with combustion air of 20 °C, from first principles. */
function netLoss(fuel: FuelId, o2: number, flueTemperature: number): number {
  const gas = burn({ fuel, o2, flueTemperature, airTemperature: 20 });
  const netOverGross = (gas.efficiencyGrossPercent ?? 0) / (gas.efficiencyNetPercent ?? 0);
  return (gas.lossDryPercent ?? 0) / netOverGross;
}

/** O2, then per flue temperature of 50, 70, 120 and 200 °C: first principles and, for air of 20 °C, Siegert. */
const TEMPERATURES = [50, 70, 120, 200];
const TABLE: readonly [FuelId, number, readonly number[], readonly number[]][] = [
  ["methane", 0, [1.214, 2.027, 4.074, 7.395], [1.213, 2.021, 4.043, 7.277]],
  ["methane", 3, [1.37, 2.287, 4.595, 8.337], [1.37, 2.283, 4.567, 8.22]],
  ["methane", 4.5, [1.469, 2.452, 4.927, 8.937], [1.47, 2.45, 4.9, 8.82]],
  ["methane", 6, [1.588, 2.651, 5.325, 9.658], [1.59, 2.65, 5.3, 9.54]],
  ["methane", 9, [1.916, 3.198, 6.422, 11.642], [1.92, 3.2, 6.4, 11.52]],
  ["propane", 3, [1.327, 2.216, 4.454, 8.087], [1.29, 2.15, 4.3, 7.74]],
  ["propane", 4.5, [1.427, 2.382, 4.787, 8.69], [1.385, 2.309, 4.618, 8.313]],
  ["propane", 6, [1.546, 2.582, 5.188, 9.414], [1.5, 2.5, 5, 9]],
];
const ROWS = TABLE.flatMap(([fuel, o2, principles, law]) =>
  TEMPERATURES.map(
    (celsius, index) =>
      [fuel, o2, celsius, principles[index] ?? Number.NaN, law[index] ?? Number.NaN] as const,
  ),
);

describe("1. BImSchV of 26 January 2010, annex 2, 3.4.1: the law's constants", () => {
  it("natural gas 0.66 and 0.009, liquefied gas 0.63 and 0.008", () => {
    expect(SIEGERT).toEqual({ "natural-gas": { a: 0.66, b: 0.009 }, lpg: { a: 0.63, b: 0.008 } });
  });
  it.each(ROWS)("%s O2 %s, %s °C (arithmetic with the law's formula)", (fuel, o2, celsius, _, law) => {
    near(siegertLoss(fuel === "propane" ? LPG : GAS, celsius, 20, o2), law, 0.00051);
  });
});

describe("sensible loss from first principles, % of net (independent recalculation, not published)", () => {
  it.each(ROWS)("%s O2 %s, %s °C is %s", (fuel, o2, celsius, principles) =>
    near(netLoss(fuel, o2, celsius), principles, 0.001),
  );
});

describe("the law against first principles", () => {
  // The legal constants for natural gas are rounded to two and one figure: 0.4 % up to 70 °C, 1 % at 120, 2 % at 200.
  // Those for liquefied gas lie 3 to 4.5 % below first principles of pure propane: a finding, not tuned; 5 %.
  const allowed = (celsius: number) => (celsius <= 70 ? 0.004 : celsius <= 120 ? 0.01 : 0.02);
  it.each([
    ...ROWS.map(([fuel, o2, celsius]) => [fuel, o2, celsius] as const),
    ["natural-gas", 3, 50] as const,
    ["natural-gas", 4.5, 70] as const,
    ["natural-gas", 4.5, 120] as const,
    ["natural-gas", 4.5, 200] as const,
  ])("%s O2 %s, %s °C", (fuel, o2, celsius) => {
    const law = siegertLoss(fuel === "propane" ? LPG : GAS, celsius, 20, o2) ?? Number.NaN;
    near(netLoss(fuel, o2, celsius), law, law * (fuel === "propane" ? 0.05 : allowed(celsius)));
    if (fuel === "propane") expect(netLoss(fuel, o2, celsius)).toBeGreaterThan(law);
  });
});

describe("other constants", () => {
  // Flanders (decree of 8 December 2006, annex II) has A 0.65 for natural gas; the first principles side with 0.66.
  it("Flanders: 2.420 % where Germany has 2.450 %, at 50 K and O2 4.5 % (arithmetic)", () => {
    const flanders = siegertLoss({ a: 0.65, b: 0.009 }, 70, 20, 4.5);
    near(flanders, 2.42, 0.0005);
    near(siegertLoss(GAS, 70, 20, 4.5), 2.45, 0.0005);
    near(netLoss("natural-gas", 4.5, 70), flanders ?? Number.NaN, 2.42 * 0.02);
  });
  // CO2 form (1. BImSchV 1988, VDI 4206; from memory): A1 = A CO2max/21, published as 0.37 and, for liquefied gas, 0.42. That
  // belongs to a CO2max of 13.8 to 14.2 %, as butane has it; propane's 13.72 % makes 0.412, 0.003 below that rounding: not tuned.
  it.each<[FuelId, number, number, number]>([
    ["natural-gas", GAS.a, 0.37, 0.005],
    ["butane", LPG.a, 0.42, 0.005],
    ["propane", LPG.a, 0.42, 0.01],
  ])("A1 of %s from A %s is %s", (fuel, a, a1, tolerance) => near((a * co2Max(fuel)) / 21, a1, tolerance));
  it("the CO2 form gives the same as the O2 form within 1.5 % (its constant is rounded)", () => {
    const { co2 } = burn({ fuel: "natural-gas", o2: 4.5 });
    near(siegertLoss(GAS, 70, 20, 4.5), 50 * (0.37 / co2 + 0.009), 2.45 * 0.015);
  });
});

describe("refused", () => {
  it.each([
    ["a flue colder than the air", 19, 20, 5],
    ["O2 below 0", 70, 20, -0.1],
    ["O2 of nearly air", 70, 20, 20.5],
    ["the singular point", 70, 20, 21],
    ["a temperature that is no number", Number.NaN, 20, 5],
    ["infinite", Number.POSITIVE_INFINITY, 20, 5],
    ["O2 that is no number", 70, 20, Number.NaN],
  ])("%s", (_, flue, air, o2) => expect(siegertLoss(GAS, flue, air, o2)).toBeNull());
  it("a flue as cold as the air loses nothing", () => expect(siegertLoss(GAS, 20, 20, 5)).toBe(0));
});
