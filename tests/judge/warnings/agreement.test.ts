import { describe, expect, it } from "vitest";
import { co2FromO2 } from "../../../src/combustion/dilution.ts";
import { judged } from "../../support/judged.ts";
import { PROPANE, sheet } from "../../support/sheets.ts";
import { co, co2, high, low, o2, replace, turn } from "../../support/visits.ts";
import { codes, test } from "./told.ts";

describe("O2 and CO2 that cannot both be right", () => {
  const disagree = ["o2-co2-disagree", "stop"];
  // Tolerance O2 0.3 and CO2 0.3 vol-% (check-values section 10, from memory). CH4: O2 4.5 % belongs to 9.19 % (section 1.2).
  test([
    ["9.2 with 4.5", [[0, high, o2(4.5), co2(9.2)]], []],
    ["9.2 with 8.5: misheard", [[0, high, o2(8.5), co2(9.2)]], disagree],
    ["in the other order", [[0, high, co2(9.2), o2(8.5)]], disagree],
    [
      "within a minute",
      [
        [0, high, co2(9.2)],
        [60, o2(8.5)],
      ],
      disagree,
    ],
    [
      "later than a minute",
      [
        [0, high, co2(9.2)],
        [61, o2(8.5)],
      ],
      [],
    ],
    ["a turn between", [[0, high, co2(9.2), turn(0.25), o2(8.5)]], ["read-too-early"]],
    [
      "of different firings",
      [
        [0, high, co2(9.2)],
        [9, low, o2(8.5)],
      ],
      [],
    ],
    [
      "gone with a new reading",
      [
        [0, high, o2(8.5), co2(9.2)],
        [9, o2(4.5)],
      ],
      [],
    ],
    [
      "stays otherwise",
      [
        [0, high, o2(8.5), co2(9.2)],
        [9, high],
      ],
      disagree,
    ],
    [
      "not taken back by CO2 alone",
      [
        [0, high, o2(8.5), co2(9.2)],
        [80, co2(9.2), co(40)],
      ],
      disagree,
    ],
    [
      "mended",
      [
        [0, high, o2(8.5), co2(9.2)],
        [5, replace(7.1)],
      ],
      [],
    ],
    ["more CO2 than the gas can make", [[0, high, o2(0), co2(12.8)]], disagree],
    ["both nearly air", [[0, high, o2(20.9), co2(0)]], []],
  ]);
  it("natural-gas numbers on propane: O2 4.5 % belongs to 10.77 % (check-values section 1.2)", () => {
    const { warnings } = judged([[0, high, o2(4.5), co2(9.2)]], {
      fuel: "propane",
      sheet: sheet({ fuels: { propane: PROPANE } }),
    });
    expect(warnings.map(({ code }) => code)).toEqual(["o2-co2-disagree"]);
  });
  it("at the edge of both tolerances", () => {
    const edge = (co2FromO2("natural-gas", 4.5 - 0.3) ?? Number.NaN) + 0.3;
    const at = (value: number) =>
      codes([[0, high, o2(4.5), co2(value)]], sheet({ fuels: { "natural-gas": { high: {}, low: {} } } }));
    expect([at(edge - 0.001), at(edge), at(edge + 0.001)]).toEqual([[], [], disagree]);
  });
});
