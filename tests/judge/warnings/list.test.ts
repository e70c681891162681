import { expect, it } from "vitest";
import { Sheet } from "../../../src/visit/sheet.ts";
import { NATURAL_GAS, PROPANE, sheet, WITH_PRESSURE } from "../../support/sheets.ts";
import { co, co2, gas, high, o2, room, type Said, turn } from "../../support/visits.ts";
import { codes } from "./told.ts";

it("the gravest is said first", () => {
  const script: Said[] = [
    [0, gas(4, "static"), room(80)],
    [9, high, turn(2, "low"), co2(10), o2(9), co(900)],
  ];
  expect(codes(script, sheet({ fuels: { "natural-gas": WITH_PRESSURE } }))).toEqual([
    "ambient-co-evacuate",
    "flue-co-air-free-over-400",
    "flue-co-over-limit",
    "gas-pressure-out",
    "o2-co2-disagree",
    "wrong-firing",
    "low-before-high",
    "step-too-large",
    "read-too-early",
    "stop",
  ]);
});

it("the test sheets are sheets", () => {
  for (const fuels of [
    { "natural-gas": NATURAL_GAS },
    { propane: PROPANE },
    { "natural-gas": WITH_PRESSURE },
  ]) {
    expect(() => Sheet.parse(sheet({ fuels }))).not.toThrow();
  }
});
