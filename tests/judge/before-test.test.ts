import { describe, expect, it } from "vitest";
import type { Sheet } from "../../src/visit/sheet.ts";
import { judged } from "../support/judged.ts";
import { PRESSURE_SHEET, sheet } from "../support/sheets.ts";
import { check, co, co2, gas, high, room, type Said } from "../support/visits.ts";

const before: Said = [
  0,
  check("isolation"),
  check("pressure-tap"),
  check("gas-on"),
  check("analyser-zeroed"),
];

describe("before the test", () => {
  const next = (script: Said[], chosen: Sheet = PRESSURE_SHEET) => judged(script, { sheet: chosen }).next;
  const cases: [string, Said[], string][] = [
    [
      "all is asked for in one sentence, then the first of the test",
      [],
      "First isolate the gas, open the pressure tap, turn the gas on, zero the analyser in fresh air, read room C O. Then read the static gas pressure.",
    ],
    [
      "what is confirmed drops out",
      [
        [0, check("isolation"), check("pressure-tap")],
        [9, room(0)],
      ],
      "First turn the gas on, zero the analyser in fresh air. Then read the static gas pressure.",
    ],
    ["all confirmed", [before], "Read the static gas pressure."],
    ["who reads the pressure goes on", [[0, gas(7, "static")]], "Go to high fire."],
    ["who reads the flue goes on", [[0, high, co2(9.2), co(40)]], "Go to low fire."],
    [
      "with the burner firing static pressure is not asked for",
      [[0, high]],
      "Read the dynamic gas pressure.",
    ],
  ];
  it.each(cases)("%s", (_name, script, expected) => expect(next(script)).toBe(expected));

  it("without pressure limits the tap is no matter", () => {
    expect(next([], sheet())).toBe(
      "First zero the analyser in fresh air, read room C O. Then go to high fire.",
    );
  });
});
