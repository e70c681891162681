import ucum from "@lhncbc/ucum-lhc";
import { unit as mathUnit } from "mathjs";
import { describe, expect, it } from "vitest";
import { factor, scaleOf } from "../../src/measure/scale.ts";

const reference = ucum.UcumLhcUtils.getInstance();
const close = (actual: number, expected: number, relative: number) =>
  expect(Math.abs(actual / expected - 1)).toBeLessThanOrEqual(relative);

describe("factors of NIST SP 811 (2008), appendix B, and of UCUM essence 2.2, each at its own rounding", () => {
  it.each<[string, string, string, number, number]>([
    ["IT Btu, exact", "[Btu_IT]", "J", 1055.05585262, 1e-14],
    ["IT Btu, rounded", "[Btu_IT]", "J", 1055.056, 5e-7],
    // UCUM's bare [Btu] is the thermochemical one: 0.067 % less. It must never stand for the IT Btu.
    ["thermochemical Btu", "[Btu]", "J", 1054.35, 1e-6],
    ["IT Btu per hour", "[Btu_IT]/h", "W", 0.29307107, 1.8e-8],
    ["100 000 Btu/h is 29.3071 kW", "100000.[Btu_IT]/h", "kW", 29.3071, 2e-6],
    ["cubic foot", "[cft_i]", "m3", 0.028316846592, 1e-14],
    ["cubic foot, as the dial has it", "[ft_i]3", "m3", 0.028316846592, 1e-14],
    ["0.01 m3 is 0.35315 ft3", "10.L", "[cft_i]", 0.35315, 2e-5],
    ["1 ft3/h of 1000 Btu/ft3 is 0.29307 kW", "1000.[Btu_IT]/h", "kW", 0.29307, 1e-5],
    ["1000 Btu/ft3 is 37.2589 MJ/m3", "1000.[Btu_IT]/[cft_i]", "MJ/m3", 37.2589, 2e-6],
    ["US gallon", "[gal_us]", "L", 3.785411784, 1e-14],
    ["imperial gallon", "[gal_br]", "L", 4.54609, 1e-14],
    ["inch of water, conventional", "[in_i'H2O]", "Pa", 249.0889, 5e-7],
    // SP 811 has 3386.389 Pa; UCUM rounds its metre of mercury and differs in the sixth figure.
    ["inch of mercury, conventional", "[in_i'Hg]", "Pa", 3386.389, 4e-6],
    ["inch of mercury in UCUM", "[in_i'Hg]", "Pa", 3386.3788, 1.5e-8],
    ["psi", "[psi]", "Pa", 6894.757, 1e-7],
    ["hPa is mbar", "hPa", "mbar", 1, 0],
    ["kWh", "kW.h", "J", 3.6e6, 0],
    // UCUM knows no therm; the EC's, from memory, is 100 000 IT Btu. The US one differs by 0.024 %.
    ["therm of the EC", "100000.[Btu_IT]", "J", 1.05506e8, 5e-6],
    ["ppm is a millionth", "[ppm]", "10*-6", 1, 0],
    ["ppm in percent", "[ppm]", "%", 1e-4, 1e-14],
    ["revolutions per minute", "{rev}/min", "/min", 1, 0],
    ["mg/m3", "mg/m3", "kg/m3", 1e-6, 1e-14],
    ["mg/kWh", "mg/(kW.h)", "ug/kJ", 1 / 3.6, 1e-14],
    ["L/min", "L/min", "m3/s", 1 / 60_000, 1e-14],
    ["m3/h", "m3/h", "L/min", 1000 / 60, 1e-14],
    ["ft3/h", "[cft_i]/h", "m3/h", 0.028316846592, 1e-14],
  ])("%s", (_, from, to, expected, relative) => close(factor(from, to), expected, relative));
});

describe("against @lhncbc/ucum-lhc 7.1.10", () => {
  it.each([
    ["[Btu_IT]/h", "kW"],
    ["[Btu_IT]/[cft_i]", "MJ/m3"],
    ["[cft_i]", "m3"],
    ["mbar", "Pa"],
    ["[ft_i]", "m"],
    ["L/min", "m3/s"],
    ["[in_i'Hg]", "[psi]"],
    ["mg/(kW.h)", "ng/J"],
    ["MJ/m3", "kW.h/m3"],
    ["[gal_br]/min", "L/min"],
    ["[cft_i]/h", "m3/h"],
    ["hPa", "kPa"],
  ])("%s to %s", (from, to) =>
    close(factor(from, to), reference.convertUnitTo(from, 1, to).toVal ?? Number.NaN, 1e-13),
  );
});

describe("against mathjs 15.2.0", () => {
  it.each([
    ["[Btu_IT]", "J", "BTU", "J"],
    ["[cft_i]", "m3", "ft^3", "m^3"],
    ["[Btu_IT]/h", "kW", "BTU/hour", "kW"],
  ])("%s to %s", (from, to, theirFrom, theirTo) =>
    close(factor(from, to), mathUnit(1, theirFrom).toNumber(theirTo), 1e-10),
  );
});

describe("scales", () => {
  it("Fahrenheit is 1.8 per degree from 32, exactly", () =>
    expect(scaleOf("[degF]", "Cel")).toEqual({ perBase: 1.8, zero: 32 }));
  it("a unit on its own scale", () => expect(scaleOf("Pa", "Pa")).toEqual({ perBase: 1, zero: 0 }));
  it.each([
    ["an unknown code", "[therm]", "J"],
    ["another dimension", "mbar", "m"],
  ])("%s is refused", (_, from, to) => {
    expect(() => factor(from, to)).toThrow();
    expect(() => scaleOf(from, to)).toThrow();
  });
});
