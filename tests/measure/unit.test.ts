import ucum from "@lhncbc/ucum-lhc";
import { unit as mathUnit } from "mathjs";
import { describe, expect, it } from "vitest";
import { baseOf, convert, shownUnit, spokenUnit, UNITS, type Unit } from "../../src/measure/unit.ts";

const reference = ucum.UcumLhcUtils.getInstance();
const pairs = UNITS.flatMap((from) => UNITS.map((to): [Unit, Unit] => [from, to]));
const comparable = (a: Unit, b: Unit) => baseOf(a) === baseOf(b);
const close = (actual: number, expected: number, relative: number) =>
  expect(Math.abs(actual - expected)).toBeLessThanOrEqual(Math.max(1e-10, Math.abs(expected) * relative));

describe("every pair of comparable units against @lhncbc/ucum-lhc 7.1.10", () => {
  const units = pairs.filter(([from, to]) => comparable(from, to));
  it.each(units)("%s to %s", (from, to) => {
    for (const value of [-40, -1.5, 0, 0.25, 1, 9.2, 212, 20_000]) {
      const { status, toVal } = reference.convertUnitTo(from, value, to);
      expect(status).toBe("succeeded");
      close(convert(value, from, to), toVal ?? Number.NaN, 1e-12);
    }
  });
});

describe("bounds that people type come out exact", () => {
  it.each<[number, Unit, Unit, number]>([
    [302, "[degF]", "Cel", 150],
    [1112, "[degF]", "Cel", 600],
    [-40, "[degF]", "Cel", -40],
    [10, "kPa", "mbar", 100],
    [2.5, "mbar", "Pa", 250],
    [100, "mbar", "Pa", 10_000],
  ])("%s %s", (value, from, to, expected) => expect(convert(value, from, to)).toBe(expected));
});

describe("units of different dimensions", () => {
  const units = pairs.filter(([from, to]) => !comparable(from, to));
  it.each(units)("%s to %s is refused", (from, to) => {
    expect(() => convert(1, from, to)).toThrow(`no way from ${from} to ${to}`);
  });
  // UCUM counts percent and ppm as plain numbers. Here nobody says a CO2 in ppm or a CO in percent: a mishearing.
  const plain = (unit: Unit) => unit === "%" || unit === "[ppm]";
  it.each(units.filter(([from, to]) => !(plain(from) && plain(to))))(
    "UCUM knows none from %s to %s",
    (from, to) => {
      expect(reference.convertUnitTo(from, 1, to).status).toBe("failed");
    },
  );
});

describe("against mathjs 15.2.0", () => {
  it.each<[number, Unit, Unit, string, string, number]>([
    [212, "[degF]", "Cel", "degF", "degC", 1e-12],
    [-40, "Cel", "[degF]", "degC", "degF", 1e-12],
    [1, "[psi]", "Pa", "psi", "Pa", 1e-10], // its psi is wrong from the eleventh digit on
    [18.5, "mbar", "kPa", "mbar", "kPa", 1e-12],
    [8, "[gal_us]/min", "L/min", "gallon/minute", "litre/minute", 1e-4], // its gallon is 3.785 L
    [6000, "m", "[ft_i]", "m", "ft", 1e-12],
  ])("%s %s to %s", (value, from, to, theirFrom, theirTo, relative) => {
    close(convert(value, from, to), mathUnit(value, theirFrom).toNumber(theirTo), relative);
  });
  it("an inch of water is 2.54 of its centimetres", () => {
    close(convert(1, "[in_i'H2O]", "Pa"), mathUnit(2.54, "cmH2O").toNumber("Pa"), 1e-12);
  });
});

describe("NIST SP 811 (2008), appendix B", () => {
  it.each<[string, number, Unit, Unit, number, number]>([
    ["inch of water, conventional", 1, "[in_i'H2O]", "Pa", 249.0889, 5e-7],
    // Water of other temperatures; UCUM's conventional inch was taken: the spread of 0.1 % is below any manometer's.
    ["inch of water, 4 °C", 1, "[in_i'H2O]", "Pa", 249.082, 1e-4],
    ["inch of water, 60 °F", 1, "[in_i'H2O]", "Pa", 248.84, 1.1e-3],
    ["psi", 1, "[psi]", "Pa", 6894.757, 1e-7],
    ["mbar", 1, "mbar", "Pa", 100, 0],
    ["US gallon", 1, "[gal_us]/min", "L/min", 3.785411784, 0],
    ["foot", 1, "[ft_i]", "m", 0.3048, 0],
    ["freezing", 32, "[degF]", "Cel", 0, 0],
    ["3.5 inches of water", 3.5, "[in_i'H2O]", "Pa", 871.8, 1e-4],
  ])("%s", (_, value, from, to, expected, relative) => close(convert(value, from, to), expected, relative));
});

describe("words", () => {
  it.each<[Unit, string, string]>([
    ["%", "percent", "%"],
    ["[ppm]", "parts per million", "ppm"],
    ["[in_i'H2O]", "inches of water", "in. w.c."],
    ["Cel", "degrees Celsius", "°C"],
    ["mbar", "millibar", "mbar"],
  ])("%s is said %s and shown %s", (unit, spoken, shown) => {
    expect(spokenUnit(unit)).toBe(spoken);
    expect(shownUnit(unit)).toBe(shown);
  });
});
