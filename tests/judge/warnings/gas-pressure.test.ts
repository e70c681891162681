import { describe, expect, it } from "vitest";
import { PRESSURE_SHEET, sheet, WITH_PRESSURE } from "../../support/sheets.ts";
import { check, co, co2, gas, high, low, note, type Said, turn } from "../../support/visits.ts";
import { type Case, codes, test } from "./told.ts";

describe("gas pressure out: no adjusting", () => {
  const out = ["gas-pressure-out", "stop"];
  const cases: Case[] = [
    ["static at its minimum", [[0, gas(4.5, "static")]], []],
    ["static below", [[0, gas(4.4, "static")]], out],
    ["dynamic above", [[0, gas(14.1, "dynamic")]], out],
    ["drop at its limit of 1", [[0, gas(7, "static"), gas(6, "dynamic")]], []],
    ["drop above", [[0, gas(7, "static"), gas(5.9, "dynamic")]], out],
    // 1 in. w.c. is 2.4909 mbar (UCUM essence 2.2): 2.5 on a gauge that shows tenths, 2.49 on one that shows hundredths.
    ["drop in mbar below", [[0, gas(17.4, "static", "mbar"), gas(15, "dynamic", "mbar")]], []],
    [
      "drop in mbar at its limit as said",
      [[0, gas(17.4, "static", "mbar"), gas(14.9, "dynamic", "mbar")]],
      [],
    ],
    [
      "drop in mbar, said finer: above",
      [[0, gas(17.4, "static", "mbar"), gas(14.89, "dynamic", "mbar")]],
      out,
    ],
    [
      "static in inches, dynamic in mbar: at its limit",
      [[0, gas(7, "static"), gas(14.9, "dynamic", "mbar")]],
      [],
    ],
    ["static in inches, dynamic in mbar: above", [[0, gas(7, "static"), gas(14.8, "dynamic", "mbar")]], out],
    ["drop in another unit", [[0, gas(17.4, "static", "mbar"), gas(14.8, "dynamic", "mbar")]], out],
    [
      "no adjusting, though the CO2 is low",
      [
        [0, gas(4.4, "static")],
        [9, high, co2(8), co(40)],
      ],
      out,
    ],
    [
      "gone with a new static reading",
      [
        [0, gas(4.4, "static")],
        [9, gas(7, "static")],
      ],
      [],
    ],
    [
      "a good dynamic one does not mend a static one",
      [
        [0, gas(4.4, "static")],
        [9, gas(4.2, "dynamic")],
      ],
      out,
    ],
    [
      "a good one at low fire does not mend high fire",
      [
        [0, high, gas(3.9)],
        [9, low, gas(6)],
      ],
      out,
    ],
    [
      "mended at high fire",
      [
        [0, high, gas(3.9)],
        [9, gas(6)],
      ],
      [],
    ],
    [
      "of unknown firing: mended by any later one",
      [
        [0, gas(3.9, "dynamic")],
        [9, high, gas(6)],
      ],
      [],
    ],
  ];
  test(cases, PRESSURE_SHEET);
  it("without limits nothing is known", () => {
    expect(codes([[0, gas(1, "static")]], sheet())).toEqual([]);
  });
});

describe("adjusting on a supply that nobody proved", () => {
  const told = ["gas-pressure-not-read"];
  const both: Said = [0, gas(7, "static"), gas(6.5, "dynamic")];
  test(
    [
      ["the first CO2 that is out", [[0, high, co2(8)]], told],
      [
        "the reading that proves the last firing",
        [
          [0, high, co2(9.2), co(30)],
          [9, low, co2(9), co(20)],
        ],
        told,
      ],
      [
        "one before it",
        [
          [0, high, co2(9.2), co(30)],
          [9, low, co2(9)],
        ],
        [],
      ],
      [
        "not with what is said after it",
        [
          [0, high, co2(9.2), co(30)],
          [9, low, co2(9), co(20)],
          [12, note("hm")],
        ],
        [],
      ],
      [
        "told once",
        [
          [0, high, co2(8)],
          [9, turn(1)],
        ],
        [],
      ],
      ["the first turn, before any reading", [[0, high, turn(0.5)]], told],
      [
        "one of the two is missing",
        [
          [0, gas(7, "static")],
          [5, high, co2(8)],
        ],
        told,
      ],
      ["both were read", [both, [5, high, co2(8)]], []],
      ["CO2 in its band", [[0, high, co2(9)]], []],
      ["a check alone", [[0, check("gas-on")]], []],
    ],
    PRESSURE_SHEET,
  );
  it("without limits for it there is nothing to prove", () => {
    expect(
      codes([
        [0, high, co2(8)],
        [9, turn(1)],
      ]),
    ).toEqual([]);
  });
});

describe("a drop where the sheet gives no largest one: half of the static pressure (our own caution)", () => {
  const { maxDrop: _maxDrop, ...bands } = WITH_PRESSURE["gas-pressure-inlet"] ?? {};
  const noDrop = sheet({ fuels: { "natural-gas": { ...WITH_PRESSURE, "gas-pressure-inlet": bands } } });
  test(
    [
      ["12 to 6", [[0, gas(12, "static"), gas(6, "dynamic")]], []],
      ["12 to 5.9", [[0, gas(12, "static"), gas(5.9, "dynamic")]], ["gas-pressure-out", "stop"]],
      ["in two units", [[0, gas(30, "static", "mbar"), gas(5, "dynamic")]], ["gas-pressure-out", "stop"]],
    ],
    noDrop,
  );
});
