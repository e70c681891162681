import { describe, expect, it } from "vitest";
import type { Fuel } from "../../src/measure/firing.ts";
import type { FuelLimits } from "../../src/visit/sheet.ts";
import { judged } from "../support/judged.ts";
import { NATURAL_GAS, PROPANE, sheet, WITH_PRESSURE } from "../support/sheets.ts";
import { co, co2, command, gas, high, low, o2, reading, type Said, strike, turn } from "../support/visits.ts";

/** The verdicts on the last utterance, as "quantity value verdict [min..max]". */
function verdicts(
  script: Said[],
  limits: FuelLimits | null = NATURAL_GAS,
  fuel: Fuel = "natural-gas",
): string[] {
  const chosen = limits ? sheet({ fuels: { "natural-gas": limits, propane: PROPANE } }) : null;
  return judged(script, { sheet: chosen, fuel }).verdicts.map(({ value, verdict, limit }) => {
    const band = limit ? ` ${limit.min ?? ""}..${limit.max ?? ""}` : "";
    return `${value} ${verdict}${band}`;
  });
}

describe("high fire on natural gas: CO2 8.7 to 9.7 %, CO at most 175 ppm (common practice, no source)", () => {
  const cases: [number, number, string, string][] = [
    [8.6, 0, "fail", "pass"],
    [8.7, 174, "pass", "pass"],
    [8.8, 175, "pass", "pass"],
    [9.6, 176, "pass", "fail"],
    [9.7, 0, "pass", "pass"],
    [9.8, 0, "fail", "pass"],
    [10, 2000, "fail", "fail"],
    [9, 0, "pass", "pass"],
    // Said finer than instruments show: judged as said.
    [8.69, 0, "fail", "pass"],
    [9.71, 0, "fail", "pass"],
  ];
  it.each(cases)("CO2 %f, CO %i: %s, %s", (percent, ppm, first, second) => {
    expect(verdicts([[0, high, co2(percent), co(ppm)]])).toEqual([
      `${percent} ${first} 8.7..9.7`,
      `${ppm} ${second} ..175`,
    ]);
  });
});

describe("high fire on propane: CO2 9.5 to 10.5 % (common practice, no source)", () => {
  const cases: [number, string][] = [
    [9.4, "fail"],
    [9.5, "pass"],
    [10.5, "pass"],
    [10.6, "fail"],
  ];
  it.each(cases)("CO2 %f: %s", (value, verdict) => {
    expect(verdicts([[0, high, co2(value)]], NATURAL_GAS, "propane")).toEqual([
      `${value} ${verdict} 9.5..10.5`,
    ]);
  });
});

describe("low fire hangs on high fire: 10.3 allows 10.0 to 10.3 (common practice, no source)", () => {
  const touchedThen = (percent: number): Said[] => [
    [0, high, co2(10.3)],
    [60, low, co2(percent)],
  ];
  const cases: [number, string][] = [
    [9.9, "fail"],
    [10, "pass"],
    [10.1, "pass"],
    [10.3, "pass"],
    [10.4, "fail"],
  ];
  it.each(cases)("CO2 %f: %s", (value, verdict) => {
    expect(verdicts(touchedThen(value), NATURAL_GAS, "propane")).toEqual([`${value} ${verdict} 10..10.3`]);
  });

  const without: [string, Said[]][] = [
    ["no high fire yet", [[0, low, co2(9)]]],
    [
      "high fire failed",
      [
        [0, high, co2(10)],
        [9, low, co2(9)],
      ],
    ],
    [
      "high fire failed after it had passed",
      [
        [0, high, co2(9)],
        [5, co2(10)],
        [9, low, co2(9)],
      ],
    ],
    [
      "high fire was struck",
      [
        [0, high, co2(9)],
        [5, strike],
        [9, low, co2(9)],
      ],
    ],
    [
      "the high-fire screw was touched since",
      [
        [0, high, co2(9)],
        [5, turn(0.25)],
        [99, low, co2(9)],
      ],
    ],
    [
      "high fire was read too early",
      [
        [0, high, turn(0.25)],
        [59, co2(9)],
        [99, low, co2(9)],
      ],
    ],
  ];
  it.each(without)("no limit: %s", (_name, script) => expect(verdicts(script)).toEqual(["9 no-limit"]));

  it("takes the last accepted high-fire value", () => {
    expect(
      verdicts([
        [0, high, co2(9)],
        [5, co2(9.2)],
        [9, low, co2(9)],
      ]),
    ).toEqual(["9 pass 8.9..9.2"]);
  });
  it("a low-fire band of its own needs no high fire", () => {
    const banded = { ...NATURAL_GAS, low: { co2: { min: 8.4, max: 9, unit: "%" as const } } };
    expect(verdicts([[0, low, co2(9), co(40)]], banded)).toEqual(["9 pass 8.4..9", "40 no-limit"]);
  });
});

describe("a missing limit is never a pass", () => {
  const cases: [string, Said[], FuelLimits | null, string[]][] = [
    ["no sheet", [[0, high, co2(9.2), co(40)]], null, ["9.2 no-limit", "40 no-limit"]],
    ["no row", [[0, high, co2(9.2)]], { high: {}, low: {} }, ["9.2 no-limit"]],
    ["no O2 limit", [[0, high, o2(4.5)]], NATURAL_GAS, ["4.5 no-limit"]],
    ["no firing known", [[0, co2(9.2)]], NATURAL_GAS, ["9.2 no-limit"]],
    [
      "never limited",
      [[0, high, reading("flue-temperature", 120, { unit: "[degF]" })]],
      NATURAL_GAS,
      ["120 no-limit"],
    ],
    ["no pressure limits", [[0, gas(7, "static")]], NATURAL_GAS, ["7 no-limit"]],
    [
      "only a lower limit",
      [[0, high, co2(19)]],
      { high: { co2: { min: 8, unit: "%" } }, low: {} },
      ["19 pass 8.."],
    ],
  ];
  it.each(cases)("%s", (_name, script, limits, expected) =>
    expect(verdicts(script, limits)).toEqual(expected),
  );
});

describe("gas pressure, static and dynamic", () => {
  const cases: [string, Parameters<typeof gas>, string][] = [
    ["static below", [4.4, "static"], "4.4 fail 4.5..14"],
    ["static at its minimum", [4.5, "static"], "4.5 pass 4.5..14"],
    ["static at its maximum", [14, "static"], "14 pass 4.5..14"],
    ["static above", [14.1, "static"], "14.1 fail 4.5..14"],
    ["dynamic at its minimum", [4, "dynamic"], "4 pass 4..14"],
    ["dynamic below", [3.9, "dynamic"], "3.9 fail 4..14"],
    // 4.5 in. w.c. is 11.209 mbar (249.08891 Pa: UCUM essence 2.2): a gauge that shows 11.2 stands on the limit.
    ["in mbar, at the limit as said", [11.2, "static", "mbar"], "11.2 pass 11.2..34.9"],
    ["in mbar, below", [11.1, "static", "mbar"], "11.1 fail 11.2..34.9"],
    ["in kPa", [1.12, "static", "kPa"], "1.12 pass 1.12..3.49"],
    ["in Pa", [1120, "static", "Pa"], "1120 fail 1120.9..3487.2"],
  ];
  it.each(cases)("%s", (_name, args, expected) => {
    expect(verdicts([[0, gas(...args)]], WITH_PRESSURE)).toEqual([expected]);
  });
});

describe("settling: at least a full minute after a touch (common practice, no source)", () => {
  const touchedThen = (seconds: number, ...things: Said[]): Said[] => [
    [0, high, turn(0.5)],
    ...things,
    [seconds, co2(9.2)],
  ];
  const cases: [string, Said[], string][] = [
    ["at once", touchedThen(0), "wait"],
    ["just before", touchedThen(59), "wait"],
    ["at the minute", touchedThen(60), "pass"],
    ["later", touchedThen(61), "pass"],
    ["the turn was struck", touchedThen(20, [5, strike]), "pass"],
    ["a second touch starts anew", touchedThen(70, [30, turn(0.25)]), "wait"],
    ["the clock started anew", touchedThen(70, [30, command("start-timer")]), "wait"],
    ["the clock started anew, and over", touchedThen(90, [30, command("start-timer")]), "pass"],
    [
      "the low-fire screw counts too",
      [
        [0, high, turn(0.1, "low")],
        [30, co2(9.2)],
      ],
      "wait",
    ],
    [
      "no touch, no wait",
      [
        [0, high],
        [1, co2(9.2)],
      ],
      "pass",
    ],
    [
      "a clock that went back still waits",
      [
        [100, high, turn(0.5)],
        [50, co2(9.2)],
      ],
      "wait",
    ],
  ];
  it.each(cases)("%s", (_name, script, verdict) => {
    expect(verdicts(script)).toEqual([`9.2 ${verdict} 8.7..9.7`]);
  });
  it("the room and the supply need no settling", () => {
    expect(
      verdicts(
        [
          [0, high, turn(0.5)],
          [5, gas(7, "dynamic")],
        ],
        WITH_PRESSURE,
      ),
    ).toEqual(["7 pass 4..14"]);
  });
});

describe("one verdict for each reading of the utterance", () => {
  const cases: [string, Said[], string[]][] = [
    ["in spoken order", [[0, high, co(40), co2(9.2)]], ["40 pass ..175", "9.2 pass 8.7..9.7"]],
    ["none for a firing", [[0, high]], []],
    [
      "none for older readings",
      [
        [0, high, co2(9.2)],
        [9, high],
      ],
      [],
    ],
  ];
  it.each(cases)("%s", (_name, script, expected) => expect(verdicts(script)).toEqual(expected));
});
