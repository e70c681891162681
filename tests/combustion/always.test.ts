import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { atmosphericPressure } from "../../src/combustion/atmosphere.ts";
import { coAirFree } from "../../src/combustion/carbon-monoxide.ts";
import { co2FromO2, co2Max, o2FromCo2 } from "../../src/combustion/dilution.ts";
import { type FlueGas, type FlueGasInput, flueGas } from "../../src/combustion/flue-gas.ts";
import { type AnyFuel, FUEL_IDS } from "../../src/combustion/fuel.ts";
import { saturationPressure, saturationTemperature } from "../../src/combustion/saturation.ts";
import { burn, GASES, near } from "./support.ts";

const fuel = fc.constantFrom<AnyFuel>(...FUEL_IDS, GASES.g25, GASES.annexD3);
const between = (min: number, max: number) => fc.double({ min, max, noNaN: true });
const o2 = between(0, 20.49);
const maybe = (arbitrary: fc.Arbitrary<number>) => fc.option(arbitrary, { nil: undefined });
const anyNumber = fc.double();

const input: fc.Arbitrary<FlueGasInput> = fc.record({
  fuel,
  o2: between(0, 15),
  co: maybe(between(0, 20_000)),
  flueTemperature: maybe(between(40, 250)),
  airTemperature: maybe(between(-20, 40)),
  altitude: maybe(between(-500, 6000)),
});

const wild: fc.Arbitrary<FlueGasInput> = fc.oneof(
  fc.record({
    fuel,
    o2: anyNumber,
    co: maybe(anyNumber),
    flueTemperature: maybe(anyNumber),
    airTemperature: maybe(anyNumber),
    altitude: maybe(anyNumber),
  }),
  fc.record({ fuel, co2: anyNumber, co: maybe(anyNumber) }),
);

/** Holds for every value of a result: a finite number, or null for what is not known. */
const finite = (gas: FlueGas) =>
  Object.values(gas).every((value) => value === null || Number.isFinite(value));

describe("always", () => {
  it("co2FromO2 and o2FromCo2 invert each other", () => {
    fc.assert(
      fc.property(fuel, between(0, 20.95), (f, value) => {
        near(o2FromCo2(f, co2FromO2(f, value) ?? Number.NaN), value, 1e-9);
      }),
    );
    fc.assert(
      fc.property(fuel, between(0, 1), (f, share) => {
        const value = share * co2Max(f);
        near(co2FromO2(f, o2FromCo2(f, value) ?? Number.NaN), value, 1e-9);
      }),
    );
  });

  it("saturation pressure and temperature invert each other", () => {
    fc.assert(
      fc.property(between(0.01, 370), (celsius) => {
        near(saturationTemperature(saturationPressure(celsius) ?? Number.NaN), celsius, 1e-6);
      }),
    );
  });

  it("more O2 means less CO2, more air, a lower dew point, more CO air-free", () => {
    fc.assert(
      fc.property(fuel, o2, o2, (f, a, b) => {
        fc.pre(Math.abs(a - b) > 1e-6);
        const lean = burn({ fuel: f, o2: Math.max(a, b), co: 50 });
        const rich = burn({ fuel: f, o2: Math.min(a, b), co: 50 });
        expect(lean.co2).toBeLessThan(rich.co2);
        expect(lean.lambda).toBeGreaterThan(rich.lambda);
        expect(lean.coAirFree ?? Number.NaN).toBeGreaterThan(rich.coAirFree ?? Number.NaN);
        if (lean.dewPoint !== null) expect(lean.dewPoint).toBeLessThan(rich.dewPoint ?? Number.NaN);
      }),
    );
  });

  it("a hotter flue is never more efficient, a higher place has thinner air", () => {
    fc.assert(
      fc.property(fuel, between(0, 12), between(20, 300), between(20, 300), (f, oxygen, a, b) => {
        const of = (flueTemperature: number) =>
          burn({ fuel: f, o2: oxygen, flueTemperature, airTemperature: 20 }).efficiencyNetPercent ??
          Number.NaN;
        expect(of(Math.max(a, b))).toBeLessThanOrEqual(of(Math.min(a, b)));
      }),
    );
    fc.assert(
      fc.property(between(-500, 5999), (metres) => {
        const here = atmosphericPressure(metres) ?? Number.NaN;
        expect(atmosphericPressure(metres + 1) ?? Number.NaN).toBeLessThan(here);
      }),
    );
  });

  it("possible input gives finite numbers in their bounds, and the losses add up", () => {
    fc.assert(
      fc.property(input, (given) => {
        const gas = burn(given);
        expect(finite(gas)).toBe(true);
        expect(gas.lambda).toBeGreaterThanOrEqual(1);
        expect(gas.excessAirPercent).toBeGreaterThanOrEqual(0);
        expect(gas.co2).toBeLessThanOrEqual(gas.co2Max);
        expect(gas.wetFlueVolume).toBeGreaterThan(gas.dryFlueVolume);
        if (gas.coAirFree !== null) expect(gas.coAirFree).toBeGreaterThanOrEqual(given.co ?? Number.NaN);
        const known = given.flueTemperature !== undefined && given.airTemperature !== undefined;
        expect(gas.efficiencyGrossPercent !== null).toBe(known);
        if (gas.efficiencyGrossPercent === null || gas.efficiencyNetPercent === null) return;
        expect(gas.efficiencyGrossPercent).toBeGreaterThan(0);
        expect(gas.efficiencyGrossPercent).toBeLessThanOrEqual(100);
        expect(gas.efficiencyNetPercent).toBeGreaterThan(gas.efficiencyGrossPercent);
        expect(gas.efficiencyNetPercent).toBeLessThan(112);
        const sum = (gas.lossDryPercent ?? 0) + (gas.lossLatentPercent ?? 0) + gas.efficiencyGrossPercent;
        near(sum, 100, 1e-9);
      }),
    );
  });

  it("whatever the numbers, the answer is finite or a problem", () => {
    fc.assert(
      fc.property(wild, (given) => {
        const result = flueGas(given);
        expect(result.ok ? finite(result.flueGas) : result.problems.length > 0).toBe(true);
      }),
      { numRuns: 2000 },
    );
    fc.assert(
      fc.property(anyNumber, anyNumber, (co, oxygen) => {
        const result = coAirFree(co, oxygen);
        expect(result === null || Number.isFinite(result)).toBe(true);
      }),
    );
  });
});
