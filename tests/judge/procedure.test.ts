import { describe, expect, it } from "vitest";
import { judged } from "../support/judged.ts";
import { NATURAL_GAS, PROPANE, sheet } from "../support/sheets.ts";
import { check, co, co2, command, gas, high, low, note, type Said, strike, turn } from "../support/visits.ts";
import { pressures, where } from "./where.ts";

const before: Said = [
  0,
  check("isolation"),
  check("pressure-tap"),
  check("gas-on"),
  check("analyser-zeroed"),
];
const highSet: Said = [10, high, co2(9.2), co(40)];
const lowSet: Said = [100, low, co2(9), co(20)];

describe("the order of work, one step after the other", () => {
  const cases: [string, Said[], string][] = [
    ["nothing yet", [], "before-test: none"],
    ["gas pressure comes when all before it is confirmed", [before], "gas-pressure: none"],
    ["static read: dynamic needs the burner", [[0, gas(7, "static")]], "gas-pressure: go-to high"],
    [
      "at high fire",
      [
        [0, gas(7, "static")],
        [5, high],
      ],
      "gas-pressure: none",
    ],
    ["both read", [pressures], "high-fire: go-to high"],
    ["gone on without them", [[0, high, co2(9.2)]], "high-fire: read high"],
    ["at high fire, to be read", [pressures, [9, high]], "high-fire: read high"],
    ["CO2 read, CO not", [pressures, [9, high, co2(9.2)]], "high-fire: read high"],
    ["CO2 too low", [pressures, [9, high, co2(8.5), co(40)]], "high-fire: turn high 1 {min:8.6,max:9.1} 60"],
    // Richer brings more CO: it is read before it is raised.
    ["CO2 too low, CO not read", [pressures, [9, high, co2(8.5)]], "high-fire: read high"],
    [
      "CO2 too low, CO read before the turn",
      [pressures, [9, high, co2(8.2), co(40)], [20, turn(1)], [85, co2(8.5)]],
      "high-fire: turn high 1 {min:8.6,max:9.1} 60",
    ],
    [
      "CO2 too low at low fire, CO read at high fire alone",
      [pressures, highSet, [20, low, co2(8.6)]],
      "low-fire: read low",
    ],
    ["CO2 too high", [pressures, [9, high, co2(9.9)]], "high-fire: turn high -1 {min:9.3,max:9.8} 60"],
    ["turned: wait", [pressures, [9, high, co2(8.5), co(40)], [20, turn(1)]], "high-fire: wait 60"],
    [
      "still to wait",
      [pressures, [9, high, co2(8.5), co(40)], [20, turn(1)], [45, note("a")]],
      "high-fire: wait 35",
    ],
    [
      "over: read again",
      [pressures, [9, high, co2(8.5), co(40)], [20, turn(1)], [80, note("a")]],
      "high-fire: read high",
    ],
    ["read too early: wait on", [pressures, [9, high, turn(1)], [50, co2(9.2)]], "high-fire: wait 19"],
    [
      "a turn taken back: no wait",
      [pressures, [9, high, co2(8.5), co(40)], [20, turn(1)], [21, strike]],
      "high-fire: turn high 1 {min:8.6,max:9.1} 60",
    ],
    ["high fire proved", [pressures, highSet], "low-fire: go-to low"],
    ["at low fire", [pressures, highSet, [20, low]], "low-fire: read low"],
    [
      "low fire too low",
      [pressures, highSet, [20, low, co2(8.6), co(20)]],
      "low-fire: turn low 0.1 {min:8.6,max:9.1} 60",
    ],
    [
      "low fire too high",
      [pressures, highSet, [20, low, co2(9.6)]],
      "low-fire: turn low -0.1 {min:9.1,max:9.6} 60",
    ],
    [
      "low fire turned: what was read before it no longer counts",
      [pressures, highSet, [20, low, co2(8.6), co(20)], [30, turn(0.1)], [95, note("a")]],
      "low-fire: read low",
    ],
    [
      "low fire proved untouched: no recheck",
      [pressures, highSet, lowSet],
      "close-up: close-up [low-fire-cap,test-mode-off,test-port]",
    ],
    [
      "low fire touched: recheck",
      [pressures, highSet, [20, low, turn(0.1)], lowSet],
      "recheck-high: recheck-high",
    ],
    [
      "at high fire again",
      [pressures, highSet, [20, low, turn(0.1)], lowSet, [110, high]],
      "recheck-high: recheck-high",
    ],
    [
      "rechecked CO2, not CO",
      [pressures, highSet, [20, low, turn(0.1)], lowSet, [110, high, co2(9.2)]],
      "recheck-high: read high",
    ],
    [
      "rechecked",
      [pressures, highSet, [20, low, turn(0.1)], lowSet, [110, high, co2(9.2), co(40)]],
      "close-up: close-up [low-fire-cap,test-mode-off,test-port]",
    ],
    [
      "the recheck fails: back to high fire",
      [pressures, highSet, [20, low, turn(0.1)], lowSet, [110, high, co2(9.9)]],
      "high-fire: turn high -1 {min:9.3,max:9.8} 60",
    ],
    [
      "high fire touched after low fire: low fire is to be read again",
      [pressures, highSet, lowSet, [110, high, turn(0.25)], [200, co2(9.3), co(40)]],
      "low-fire: go-to low",
    ],
    [
      "closing",
      [pressures, highSet, lowSet, [110, check("low-fire-cap")]],
      "close-up: close-up [test-mode-off,test-port]",
    ],
    [
      "all closed",
      [pressures, highSet, lowSet, [110, check("low-fire-cap"), check("test-mode-off"), check("test-port")]],
      "close-up: none",
    ],
    [
      "finished",
      [
        pressures,
        highSet,
        lowSet,
        [110, check("low-fire-cap"), check("test-mode-off"), check("test-port")],
        [120, command("finish-visit")],
      ],
      "finished: none",
    ],
    [
      "finished early, all closed: taken at his word",
      [
        [0, check("low-fire-cap"), check("test-mode-off"), check("test-port")],
        [9, command("finish-visit")],
      ],
      "finished: none",
    ],
    ["low fire first: high fire is asked for", [pressures, [5, low, co2(9)]], "high-fire: go-to high"],
    ["firing not known", [pressures, [5, co2(9)]], "high-fire: go-to high"],
  ];
  it.each(cases)("%s", (_name, script, expected) => expect(where(script)).toBe(expected));

  it("without pressure limits pressure is not asked for", () => {
    expect(where([[0, check("analyser-zeroed")]], sheet())).toBe("high-fire: go-to high");
  });
  it("without limits for this gas nothing is advised, but closing is", () => {
    expect(where([[0, high, co2(5)]], null)).toBe("low-fire: none");
    expect(where([[0, high, co2(5)]], sheet({ fuels: { propane: PROPANE } }))).toBe("low-fire: none");
    expect(
      where(
        [
          [0, high, co2(5)],
          [9, low, co2(5)],
        ],
        null,
      ),
    ).toMatch(/^close-up: close-up \[/);
  });
  it("CO that the sheet does not limit is not asked for", () => {
    const { co: _limit, ...withoutCo } = NATURAL_GAS.high;
    const chosen = sheet({ fuels: { "natural-gas": { ...NATURAL_GAS, high: withoutCo } } });
    expect(where([[9, high, co2(8.5)]], chosen)).toMatch(/^high-fire: turn high/);
  });
  it("CO is named as what to read", () => {
    expect(judged([[9, high, co2(8.5)]]).next).toBe("Read C O.");
  });
  it("no step fits: stop and say so", () => {
    const lively = sheet();
    const low6 = { ...lively.adjusters.low, percentPerTurn: 8 };
    const { advice } = judged([highSet, [20, low, co2(8.8), co(20)]], {
      sheet: sheet({ adjusters: { ...lively.adjusters, low: low6 } }),
    });
    expect(advice).toMatchObject({
      action: "stop",
      reason: expect.stringContaining("small enough"),
    });
  });
  it("an O2 limit that fails with CO2 in its band is not mended by turning", () => {
    const limits = { ...NATURAL_GAS, high: { ...NATURAL_GAS.high, o2: { min: 4.5, unit: "%" as const } } };
    const { advice } = judged([[0, high, co2(9.2), co(40)]], {
      sheet: sheet({ fuels: { "natural-gas": limits } }),
    });
    expect(advice).toEqual({ action: "read", firing: "high" });
  });
});
