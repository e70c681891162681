import { describe, expect, it } from "vitest";
import { onlyUnit, QUANTITY_IDS, type QuantityId, quantityOf, refusal } from "../../src/measure/quantity.ts";
import { UNITS, type Unit } from "../../src/measure/unit.ts";

// Hard bounds of the design's table of quantities, in every unit in which the bound is a round number.
const BOUNDS: readonly [QuantityId, Unit, number, number][] = [
  ["co2", "%", 0, 20],
  ["o2", "%", 0, 20.95],
  ["co", "[ppm]", 0, 20_000],
  ["co-ambient", "[ppm]", 0, 5000],
  ["flue-temperature", "Cel", -40, 600],
  ["flue-temperature", "[degF]", -40, 1112],
  ["air-temperature", "Cel", -40, 150],
  ["air-temperature", "[degF]", -40, 302],
  ["supply-temperature", "Cel", -40, 150],
  ["supply-temperature", "[degF]", -40, 302],
  ["return-temperature", "Cel", -40, 150],
  ["return-temperature", "[degF]", -40, 302],
  ["gas-pressure-inlet", "mbar", 0, 100],
  ["gas-pressure-inlet", "kPa", 0, 10],
  ["gas-pressure-inlet", "Pa", 0, 10_000],
  ["gas-pressure-manifold", "mbar", -10, 60],
  ["gas-pressure-manifold", "kPa", -1, 6],
  ["gas-pressure-manifold", "Pa", -1000, 6000],
  ["draft", "Pa", -250, 250],
  ["draft", "mbar", -2.5, 2.5],
  ["fan-speed", "/min", 0, 20_000],
  ["flame-current", "uA", 0, 100],
  ["gas-meter-time", "s", 1, 3600],
  ["water-flow", "L/min", 0, 1000],
  ["altitude", "m", -500, 6000],
];

describe("hard bounds, below, at and above", () => {
  const cases = BOUNDS.flatMap(([id, unit, min, max]): [QuantityId, number, Unit, "bounds" | null][] => [
    [id, min - 0.01, unit, "bounds"],
    [id, min, unit, null],
    [id, (min + max) / 2, unit, null],
    [id, max, unit, null],
    [id, max + 0.01, unit, "bounds"],
  ]);
  it.each(cases)("%s %s %s: %s", (id, value, unit, expected) =>
    expect(refusal(id, value, unit)).toBe(expected),
  );
  it("covers every quantity", () => {
    expect(new Set(BOUNDS.map(([id]) => id))).toEqual(new Set(QUANTITY_IDS));
  });
});

describe("bounds in units where they are not round: 100 mbar is 40.1463 in. w.c. or 1.45038 psi", () => {
  it.each<[QuantityId, number, Unit, "bounds" | null]>([
    ["gas-pressure-inlet", 40.14, "[in_i'H2O]", null],
    ["gas-pressure-inlet", 40.15, "[in_i'H2O]", "bounds"],
    ["gas-pressure-inlet", 1.45, "[psi]", null],
    ["gas-pressure-inlet", 1.451, "[psi]", "bounds"],
    ["gas-pressure-manifold", -4.01, "[in_i'H2O]", null],
    ["gas-pressure-manifold", -4.02, "[in_i'H2O]", "bounds"],
    ["draft", -1.0, "[in_i'H2O]", null],
    ["draft", -1.01, "[in_i'H2O]", "bounds"],
    ["water-flow", 264.17, "[gal_us]/min", null],
    ["water-flow", 264.18, "[gal_us]/min", "bounds"],
    ["altitude", 19_685, "[ft_i]", null],
    ["altitude", 19_686, "[ft_i]", "bounds"],
    ["altitude", -1640, "[ft_i]", null],
    ["altitude", -1641, "[ft_i]", "bounds"],
  ])("%s %s %s: %s", (id, value, unit, expected) => expect(refusal(id, value, unit)).toBe(expected));
});

describe("a value said without a unit", () => {
  it.each<[QuantityId, number, "bounds" | null]>([
    ["co2", 9.2, null],
    ["co2", 92, "bounds"],
    ["flue-temperature", 1000, null], // in °F
    ["flue-temperature", 1113, "bounds"],
    ["gas-pressure-inlet", 2000, null], // in Pa
    ["gas-pressure-inlet", 10_001, "bounds"],
    ["gas-pressure-inlet", -0.1, "bounds"],
    ["altitude", 19_000, null], // in feet
    ["altitude", 20_000, "bounds"],
    ["o2", Number.NaN, "bounds"],
    ["o2", Number.POSITIVE_INFINITY, "bounds"],
  ])("%s %s: %s", (id, value, expected) => expect(refusal(id, value, null)).toBe(expected));
});

describe("a unit that the quantity cannot have", () => {
  const cases = QUANTITY_IDS.flatMap((id) =>
    UNITS.filter((unit) => !quantityOf(id).units.includes(unit)).map((unit): [QuantityId, Unit] => [
      id,
      unit,
    ]),
  );
  it.each(cases)("%s in %s", (id, unit) => expect(refusal(id, 1, unit)).toBe("unit"));
});

describe("units as said", () => {
  it.each<[QuantityId, readonly Unit[]]>([
    ["co2", ["%"]],
    ["co", ["[ppm]"]],
    ["flue-temperature", ["Cel", "[degF]"]],
    ["gas-pressure-inlet", ["mbar", "[in_i'H2O]", "kPa", "Pa", "[psi]"]],
    ["gas-pressure-manifold", ["mbar", "[in_i'H2O]", "kPa", "Pa", "[psi]"]],
    ["draft", ["Pa", "[in_i'H2O]", "mbar"]],
    ["water-flow", ["L/min", "[gal_us]/min"]],
    ["altitude", ["m", "[ft_i]"]],
  ])("%s: %s", (id, units) => {
    expect(quantityOf(id).units).toEqual(units);
    expect(onlyUnit(id)).toBe(units.length === 1 ? units[0] : null);
  });
});
