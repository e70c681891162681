import { describe, expect, it } from "vitest";
import { co2FromO2 } from "../../src/combustion/dilution.ts";
import { Sheet } from "../../src/visit/sheet.ts";
import { judged } from "../support/judged.ts";
import { NATURAL_GAS, PRESSURE_SHEET, PROPANE, sheet, WITH_PRESSURE } from "../support/sheets.ts";
import {
  check,
  co,
  co2,
  command,
  gas,
  high,
  low,
  note,
  o2,
  replace,
  room,
  type Said,
  strike,
  turn,
} from "../support/visits.ts";

/** Codes of the warnings after the last utterance, and whether work has to stop. */
const codes = (script: Said[], chosen: Sheet | null = PRESSURE_SHEET) => {
  const { warnings, advice } = judged(script, { sheet: chosen });
  return [...warnings.map(({ code }) => code), ...(advice.action === "stop" ? ["stop"] : [])];
};
type Case = [string, Said[], string[]];
const test = (cases: Case[]) =>
  it.each(cases)("%s", (_name, script, expected) => expect(codes(script)).toEqual(expected));

/** High fire proved, so that nothing else is asked for. */
const proved: Said = [0, high, co2(9.2), co(40)];

describe("room CO: 9 and 35 ppm, 40 CFR 50.8(a); 70 ppm, UL 2034; only the gravest", () => {
  test([
    ["8: none", [[0, room(8)]], []],
    ["9: raised", [[0, room(9)]], ["ambient-co-raised"]],
    ["34: raised", [[0, room(34)]], ["ambient-co-raised"]],
    ["35: high", [[0, room(35)]], ["ambient-co-high", "stop"]],
    ["69: high", [[0, room(69)]], ["ambient-co-high", "stop"]],
    ["70: leave", [[0, room(70)]], ["ambient-co-evacuate", "stop"]],
    ["1200: leave", [[0, room(1200)]], ["ambient-co-evacuate", "stop"]],
    [
      "it stays while nothing new was read",
      [
        [0, room(70)],
        [9, note("windows open")],
      ],
      ["ambient-co-evacuate", "stop"],
    ],
    [
      "it goes with a new reading",
      [
        [0, room(70)],
        [99, room(5)],
      ],
      [],
    ],
    [
      "it goes when the reading is struck",
      [
        [0, room(70)],
        [9, strike],
      ],
      [],
    ],
    [
      "it goes when it was misheard",
      [
        [0, room(70)],
        [9, replace(7)],
      ],
      [],
    ],
    [
      "raised is told once",
      [
        [0, room(9)],
        [9, high],
      ],
      [],
    ],
  ]);
  it("needs no sheet", () => expect(codes([[0, room(70)]], null)).toEqual(["ambient-co-evacuate", "stop"]));
});

describe("flue CO over the sheet's limit (175)", () => {
  test([
    ["below", [[0, high, co2(9.2), co(174)]], []],
    ["at", [[0, high, co2(9.2), co(175)]], []],
    ["above, CO2 in its band: stop", [[0, high, co2(9.2), co(176)]], ["flue-co-over-limit", "stop"]],
    ["above, CO2 too low: stop", [[0, high, co2(8), co(176)]], ["flue-co-over-limit", "stop"]],
    ["above, CO2 too high: leaner is the remedy", [[0, high, co2(10), co(176)]], ["flue-co-over-limit"]],
    ["above, CO2 unknown: stop", [[0, high, co(176)]], ["flue-co-over-limit", "stop"]],
    [
      "stop stays after a turn",
      [
        [0, high, co2(9.2), co(176)],
        [9, turn(-0.25)],
      ],
      ["flue-co-over-limit", "stop"],
    ],
    [
      "stop stays at the other firing",
      [
        [0, high, co2(9.2), co(176)],
        [9, low],
      ],
      ["flue-co-over-limit", "stop"],
    ],
    [
      "stop goes with a new reading",
      [
        [0, high, co2(9.2), co(176)],
        [99, co(90)],
      ],
      [],
    ],
    [
      "an early reading warns too",
      [
        [0, high, turn(0.5)],
        [5, co2(9.2), co(176)],
      ],
      ["flue-co-over-limit", "read-too-early", "stop"],
    ],
    [
      "a CO2 that had not settled explains nothing",
      [
        [0, high, turn(0.5)],
        [5, co2(10), co(176)],
      ],
      ["flue-co-over-limit", "read-too-early", "stop"],
    ],
    ["of unknown firing there is no limit", [[0, co(176)]], []],
  ]);
  it("too rich: the turn is leaner", () => {
    expect(judged([[0, high, co2(10), co(176)]]).advice).toMatchObject({
      action: "turn",
      adjuster: "high",
      turns: -1,
    });
  });
});

describe("flue CO air-free above 400 ppm: ANSI Z21 as quoted in check-values section 4", () => {
  // Air-free at O2 5 %: CO x 20.9/15.9 (check-values section 4), so 304.3 ppm measured is 400.
  const noLimits = sheet({ fuels: { "natural-gas": { high: {}, low: {} } } });
  const cases: Case[] = [
    ["304 at O2 5 %: 399.6", [[0, high, o2(5), co(304)]], []],
    ["305 at O2 5 %: 400.9", [[0, high, o2(5), co(305)]], ["flue-co-air-free-over-400", "stop"]],
    ["400 at O2 0 %: exactly 400", [[0, high, o2(0), co(400)]], []],
    ["401 at O2 0 %", [[0, high, o2(0), co(401)]], ["flue-co-air-free-over-400", "stop"]],
    ["from CO2 where no O2 was read", [[0, high, co2(9), co(320)]], ["flue-co-air-free-over-400", "stop"]],
    ["from CO2, below", [[0, high, co2(9), co(290)]], []],
    ["neither O2 nor CO2: not known", [[0, high, co(390)]], []],
    [
      "O2 of the other firing does not count",
      [
        [0, high, o2(9)],
        [9, low, co(390)],
      ],
      [],
    ],
    [
      "O2 read after the CO",
      [
        [0, high, co(350)],
        [9, o2(5)],
      ],
      ["flue-co-air-free-over-400", "stop"],
    ],
    [
      "a turn between: not of one setting",
      [
        [0, high, o2(5), turn(-0.5)],
        [99, co(350)],
      ],
      [],
    ],
    ["nearly fresh air: not known", [[0, high, o2(20.6), co(350)]], []],
    ["of unknown firing", [[0, o2(5), co(305)]], ["flue-co-air-free-over-400", "stop"]],
  ];
  it.each(cases)("%s", (_name, script, expected) => {
    expect(codes(script, noLimits)).toEqual(expected);
    expect(codes(script, null)).toEqual(expected);
  });
});

describe("too rich and rising", () => {
  test([
    [
      "CO higher, CO2 above its band",
      [
        [0, high, co2(9.8), co(50)],
        [99, co2(9.9), co(60)],
      ],
      ["rich-and-rising"],
    ],
    [
      "CO the same",
      [
        [0, high, co2(9.8), co(50)],
        [99, co2(9.9), co(50)],
      ],
      [],
    ],
    [
      "CO lower",
      [
        [0, high, co2(9.8), co(50)],
        [99, co2(9.9), co(49)],
      ],
      [],
    ],
    [
      "CO2 at its limit",
      [
        [0, high, co2(9.6), co(50)],
        [99, co2(9.7), co(60)],
      ],
      [],
    ],
    ["first CO of this firing", [[0, high, co2(9.8), co(50)]], []],
    [
      "CO of the other firing",
      [
        [0, low, co(10)],
        [99, high, co2(9.9), co(60)],
      ],
      [],
    ],
    [
      "told when read, not again",
      [
        [0, high, co2(9.8), co(50)],
        [99, co(60)],
        [120, note("hm")],
      ],
      [],
    ],
  ]);
});

describe("gas pressure out: no adjusting", () => {
  const out = ["gas-pressure-out", "stop"];
  test([
    ["static at its minimum", [[0, gas(4.5, "static")]], []],
    ["static below", [[0, gas(4.4, "static")]], out],
    ["dynamic above", [[0, gas(14.1, "dynamic")]], out],
    ["drop at its limit of 1", [[0, gas(7, "static"), gas(6, "dynamic")]], []],
    ["drop above", [[0, gas(7, "static"), gas(5.9, "dynamic")]], out],
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
  ]);
  it("without limits nothing is known", () => {
    expect(codes([[0, gas(1, "static")]], sheet({ fuels: { "natural-gas": NATURAL_GAS } }))).toEqual([]);
  });
});

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

describe("screws", () => {
  test([
    ["high-fire screw at high fire", [proved, [9, turn(0.25, "high")]], []],
    ["low-fire screw at high fire", [proved, [9, turn(0.1, "low")]], ["wrong-firing"]],
    ["high-fire screw at low fire", [proved, [5, low], [9, turn(0.25, "high")]], ["wrong-firing"]],
    ["firing not known", [[0, turn(0.25, "high")]], []],
    ["low fire after high fire has passed", [proved, [9, low, turn(0.1)]], []],
    ["low fire before any reading", [[0, low, turn(0.1)]], ["low-before-high"]],
    [
      "low fire after high fire failed",
      [
        [0, high, co2(8)],
        [9, low, turn(0.1)],
      ],
      ["low-before-high"],
    ],
    ["both at once", [[0, high, turn(0.1, "low")]], ["wrong-firing", "low-before-high"]],
    ["high step at the largest", [proved, [9, turn(1)]], []],
    ["high step above it", [proved, [9, turn(1.01)]], ["step-too-large"]],
    ["high step back above it", [proved, [9, turn(-2)]], ["step-too-large"]],
    ["low step at the largest", [proved, [9, low, turn(-0.1)]], []],
    ["low step above it", [proved, [9, low, turn(0.125)]], ["step-too-large"]],
    ["told once", [proved, [9, turn(2)], [12, note("oops")]], []],
    ["a struck turn warns no more", [proved, [9, turn(2)], [12, strike]], []],
  ]);
});

describe("a reading that moves against the turn by more than 0.1 (repeatability: common practice, no source)", () => {
  const turned = (turns: number, then: number): Said[] => [
    [0, high, co2(9), co(40)],
    [9, turn(turns)],
    [99, co2(then)],
  ];
  test([
    ["up for up", turned(0.5, 9.2), []],
    ["the same for a small turn", turned(0.5, 9), []],
    ["0.1 against: within repeatability", turned(0.5, 8.9), []],
    ["0.2 against", turned(0.5, 8.8), ["moved-wrong-way", "stop"]],
    ["0.2 up for a turn down", turned(-0.5, 9.2), ["moved-wrong-way", "stop"]],
    [
      "read too early: not known yet",
      [
        [0, high, co2(9)],
        [9, turn(0.5)],
        [20, co2(8.8)],
      ],
      ["read-too-early"],
    ],
    [
      "the other screw was turned as well",
      [
        [0, high, co2(9)],
        [9, turn(0.5), turn(-0.1, "low")],
        [99, co2(8.8)],
      ],
      [],
    ],
    ["gone with a new reading", [...turned(0.5, 8.8), [120, co2(8.8)]], []],
    [
      "of the other firing",
      [
        [0, high, co2(9), co(40)],
        [5, low, co2(8.8)],
        [9, turn(0.1)],
        [99, high, co2(8.8)],
      ],
      [],
    ],
  ]);
  it("a screw with the other thread", () => {
    const other = sheet();
    const reversed = sheet({
      adjusters: { ...other.adjusters, high: { ...other.adjusters.high, co2Rises: "counterclockwise" } },
    });
    expect(codes(turned(0.5, 9.2), reversed)).toEqual(["moved-wrong-way", "stop"]);
    expect(codes(turned(0.5, 8.8), reversed)).toEqual([]);
  });
});

describe("a screw that does nothing", () => {
  const start: Said = [0, high, co2(8)];
  test([
    [
      "one full turn, should give at least 0.23",
      [start, [9, turn(1)], [99, co2(8)]],
      ["no-response", "stop"],
    ],
    ["one full turn, moved by 0.1", [start, [9, turn(1)], [99, co2(8.1)]], []],
    ["three quarters: may be too little to see", [start, [9, turn(0.75)], [99, co2(8)]], []],
    [
      "two halves, read between",
      [start, [9, turn(0.5)], [99, co2(8)], [120, turn(0.5)], [190, co2(8)]],
      ["no-response", "stop"],
    ],
    ["there and back", [start, [9, turn(1)], [12, turn(-1)], [99, co2(8)]], []],
    [
      "after a reversal play may eat the turn",
      [
        [0, high, turn(-0.5)],
        [60, co2(8)],
        [70, turn(1)],
        [200, co2(8)],
      ],
      [],
    ],
    ["gone when it moves", [start, [9, turn(1)], [99, co2(8)], [120, turn(1)], [190, co2(8.4)]], []],
  ]);
});

describe("read too early", () => {
  test([
    ["a second before", [proved, [10, turn(0.25)], [69, co2(9.3)]], ["read-too-early"]],
    ["at the minute", [proved, [10, turn(0.25)], [70, co2(9.3)]], []],
    ["the room can be read at once", [proved, [10, turn(0.25)], [12, room(3)]], []],
  ]);
});

describe("left open", () => {
  const all: Said = [20, check("low-fire-cap"), check("test-mode-off"), check("test-port")];
  test([
    ["nothing done", [proved, [30, command("finish-visit")]], ["left-open"]],
    [
      "one missing",
      [proved, [20, check("low-fire-cap"), check("test-mode-off")], [30, command("finish-visit")]],
      ["left-open"],
    ],
    ["all done", [proved, all, [30, command("finish-visit")]], []],
    [
      "one taken back",
      [proved, all, [25, check("test-port", false)], [30, command("finish-visit")]],
      ["left-open"],
    ],
    ["not finished yet", [proved], []],
    [
      "finished, then done",
      [
        proved,
        [30, command("finish-visit")],
        [40, check("low-fire-cap"), check("test-mode-off"), check("test-port")],
      ],
      [],
    ],
  ]);
  it("says what, in the sheet's order; the advice is to close up", () => {
    const { advice, warnings } = judged([
      proved,
      [20, check("test-mode-off")],
      [30, command("finish-visit")],
    ]);
    expect(warnings[0]?.text).toBe("Not done: refit low fire cap, plug the test port.");
    expect(advice).toEqual({ action: "close-up", open: ["low-fire-cap", "test-port"] });
  });
  it("without a sheet every check is open", () => {
    const { advice } = judged([[0, command("finish-visit")]], { sheet: null });
    expect(advice).toMatchObject({ action: "close-up", open: { length: 7 } });
  });
});

it("the gravest is said first", () => {
  const script: Said[] = [
    [0, gas(4, "static"), room(80)],
    [9, high, turn(2, "low"), co2(10), o2(9), co(900)],
  ];
  expect(codes(script)).toEqual([
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
