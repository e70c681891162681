import { describe, expect, it } from "vitest";
import { type Composition, fuelGas } from "../../src/combustion/composition.ts";
import { co2FromO2 } from "../../src/combustion/dilution.ts";
import { coMilligramsPerKilowattHour, fFactors, fuelFactor } from "../../src/combustion/emission.ts";
import { FUELS, type FuelId, gasOf } from "../../src/combustion/fuel.ts";
import { GASES, near } from "./support.ts";

describe("CO, mg/kWh for each ppm at 0 % O2, net: EN 483/EN 15502 (from memory)", () => {
  // The standards rest on ISO 6976:1995 and round their air: G20 and G25 agree to 0.1 %; their G31 is 0.4 % and their G30
  // 0.7 % above ours. Their figures for those two are unsure; not tuned.
  it.each<[string, Composition, number, number]>([
    ["G20", FUELS.methane, 1.074, 0.001],
    ["G25", GASES.g25, 1.095, 0.001],
    ["G31", FUELS.propane, 1.083, 0.005],
    ["G30", GASES.g30, 1.092, 0.008],
    // Independent recalculation, not published.
    ["G20", FUELS.methane, 1.0737, 0.0001],
    ["G25", GASES.g25, 1.0942, 0.0001],
    ["G31", FUELS.propane, 1.0791, 0.0001],
    ["G30", GASES.g30, 1.0842, 0.0001],
    ["n-C4H10", FUELS.butane, 1.0824, 0.0001],
  ])("%s", (_, gas, expected, relative) =>
    near(coMilligramsPerKilowattHour(fuelGas(gas), 1, 0), expected, expected * relative),
  );
  it("dilution does not matter: what is read at O2 4.5 % counts air-free", () => {
    const gas = gasOf("natural-gas");
    const airFree = (coMilligramsPerKilowattHour(gas, 1, 0) ?? 0) * ((40 * 20.9) / (20.9 - 4.5));
    near(coMilligramsPerKilowattHour(gas, 40, 4.5), airFree, 1e-9);
  });
  it.each([
    ["negative CO", -1, 5],
    ["nearly air", 10, 20.5],
    ["no number", Number.NaN, 5],
  ])("%s is null", (_, co, o2) => expect(coMilligramsPerKilowattHour(gasOf("methane"), co, o2)).toBeNull());
});

describe("US EPA fuel factor: (20.9 - O2)/CO2", () => {
  // Ranges of 40 CFR 60 appendix A, method 3B (from memory).
  it.each<[FuelId, number, number]>([
    ["natural-gas", 1.6, 1.836],
    ["propane", 1.434, 1.586],
    ["butane", 1.405, 1.553],
  ])("%s lies within %s to %s", (fuel, min, max) => {
    for (const o2 of [0, 3, 6, 9]) {
      const factor = fuelFactor(o2, co2FromO2(fuel, o2) ?? 0) ?? Number.NaN;
      expect(factor).toBeGreaterThan(min);
      expect(factor).toBeLessThan(max);
    }
  });
  it.each<[FuelId, number]>([
    // Independent recalculation, not published.
    ["methane", 1.786],
    ["propane", 1.523],
    ["butane", 1.491],
  ])("pure %s without excess air: %s", (fuel, expected) =>
    near(fuelFactor(0, co2FromO2(fuel, 0) ?? 0), expected, 0.001),
  );
  it("CO counts as CO2 not yet made: CO2 + CO, O2 - CO/2", () =>
    near(fuelFactor(5, 8.9, 10_000), (20.9 - 4.5) / 9.9, 1e-12));
  it.each([
    ["no CO2", 20.9, 0, 0],
    ["negative O2", -1, 9, 0],
    ["O2 above air", 21, 0.1, 0],
    ["negative CO2", 5, -9, 0],
    ["negative CO", 5, 9, -1],
    ["no number", Number.NaN, 9, 0],
    ["infinite CO2", 5, Number.POSITIVE_INFINITY, Number.POSITIVE_INFINITY],
  ])("%s is null", (_, o2, co2, co) => expect(fuelFactor(o2, co2, co)).toBeNull());
});

describe("EPA F factors (40 CFR 75 appendix F, table 1), per million Btu gross at 68 °F", () => {
  // The published ones are averages of commercial gases: 2 and 4 %.
  it.each<[FuelId, number, number]>([
    ["natural-gas", 8710, 1040],
    ["propane", 8710, 1190],
    ["butane", 8710, 1250],
  ])("%s", (fuel, dry, carbon) => {
    const { fFactorDry, fFactorCarbon } = fFactors(gasOf(fuel));
    near(fFactorDry, dry, dry * 0.02);
    near(fFactorCarbon, carbon, carbon * 0.04);
  });
  it("pure gases: CH4 8600 to 8630 and 1005, C3H8 8850 (independent recalculation, not published)", () => {
    near(fFactors(gasOf("methane")).fFactorDry, 8615, 30);
    near(fFactors(gasOf("methane")).fFactorCarbon, 1005, 5);
    near(fFactors(gasOf("propane")).fFactorDry, 8850, 30);
  });
});
