import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { judge } from "../../src/judge/judge.ts";
import { Judgement } from "../../src/judge/judgement.ts";
import { readyAt } from "../../src/judge/settle.ts";
import type { Sheet } from "../../src/visit/sheet.ts";
import { anyScript } from "../support/arbitrary.ts";
import { judged } from "../support/judged.ts";
import { NATURAL_GAS, PRESSURE_SHEET, PROPANE, sheet } from "../support/sheets.ts";
import {
  check,
  co,
  co2,
  command,
  gas,
  high,
  low,
  note,
  play,
  room,
  type Said,
  strike,
  time,
  turn,
} from "../support/visits.ts";

/** "stage: advice" after the last utterance. */
function where(script: Said[], chosen: Sheet | null = PRESSURE_SHEET): string {
  const { stage, advice } = judged(script, { sheet: chosen });
  const { action, ...rest } = advice;
  const details = Object.values(rest).map((value) => JSON.stringify(value).replaceAll('"', ""));
  return `${stage}: ${[action, ...details].join(" ")}`;
}

const pressures: Said = [0, gas(7, "static"), gas(6.5, "dynamic")];
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
    [
      "CO2 too low, CO unknown",
      [pressures, [9, high, co2(8.5)]],
      "high-fire: turn high 1 {min:8.6,max:9.1} 60",
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
      [pressures, [9, high, co2(8.5)], [20, turn(1)], [21, strike]],
      "high-fire: turn high 1 {min:8.6,max:9.1} 60",
    ],
    ["high fire proved", [pressures, highSet], "low-fire: go-to low"],
    ["at low fire", [pressures, highSet, [20, low]], "low-fire: read low"],
    [
      "low fire too low",
      [pressures, highSet, [20, low, co2(8.6)]],
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
  it("no step fits: stop and say so", () => {
    const lively = sheet();
    const low6 = { ...lively.adjusters.low, percentPerTurn: 8 };
    const { advice } = judged([highSet, [20, low, co2(8.8)]], {
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

describe("settling", () => {
  const next = (script: Said[]) => judged(script, { sheet: sheet() }).next;
  it("after a change of firing it is said, and is no verdict", () => {
    expect(next([[0, high]])).toBe("Let it settle, then read C O 2.");
    const { verdicts, warnings } = judged(
      [
        [0, high],
        [2, co2(9.2)],
      ],
      { sheet: sheet() },
    );
    expect(verdicts).toMatchObject([{ verdict: "pass" }]);
    expect(warnings).toEqual([]);
  });
  it("once something was read it is not said again", () => {
    expect(next([[0, high, co2(9.2)]])).toBe("Read C O.");
  });

  const ready = (script: Said[]) => readyAt(play(script).state);
  const cases: [string, Said[], string | null][] = [
    ["nothing was touched", [[0, high, co2(9)]], null],
    ["a minute after a touch", [[10, high, turn(0.5)]], time(70)],
    [
      "the last touch counts",
      [
        [10, high, turn(0.5)],
        [30, turn(0.25)],
      ],
      time(90),
    ],
    [
      "a struck touch does not",
      [
        [10, high, turn(0.5)],
        [30, turn(0.25)],
        [31, strike],
      ],
      time(70),
    ],
    [
      "start the clock",
      [
        [10, high, turn(0.5)],
        [40, command("start-timer")],
      ],
      time(100),
    ],
  ];
  it.each(cases)("ready: %s", (_name, script, at) => expect(ready(script)).toBe(at));
});

describe("CO over its limit at the top of the CO2 band", () => {
  const at = (value: number, ppm: number) => where([[0, high, co2(value), co(ppm)]], sheet());
  const cases: [string, number, number, RegExp][] = [
    ["in the top 30 %, a little over: leaner", 9.5, 180, /^high-fire: turn high -/],
    ["at the edge of the top: leaner", 9.4, 180, /^high-fire: turn high -/],
    ["below it: stop", 9.3, 180, /^high-fire: stop/],
    ["1.5 times the limit: leaner", 9.5, 262, /^high-fire: turn high -/],
    ["more: stop", 9.5, 263, /^high-fire: stop/],
    ["at the limit: good", 9.5, 175, /^low-fire: go-to low/],
    ["above the band, far over: leaner", 9.9, 300, /^high-fire: turn high -/],
    [
      "air-free above 1000, rich: still leaner, with the burner shut down first",
      9.9,
      900,
      /^high-fire: turn high -/,
    ],
    ["air-free above 1000, not rich: stop", 9.2, 900, /^high-fire: stop.*Shut the burner down/],
  ];
  it.each(cases)("%s", (_name, value, ppm, expected) => expect(at(value, ppm)).toMatch(expected));
});

describe("always, whatever is said", () => {
  const sheets = fc.constantFrom(null, sheet(), PRESSURE_SHEET, sheet({ fuels: { propane: PROPANE } }));

  it("judging never throws, fits its schema, and every reading of the utterance has one verdict", () => {
    fc.assert(
      fc.property(anyScript, sheets, (script, chosen) => {
        const judgement = judged(script, { sheet: chosen });
        expect(() => Judgement.parse(judgement)).not.toThrow();
        expect(judgement.next).not.toBe("");
      }),
      { numRuns: 300 },
    );
  });
  it("nothing passes without a limit", () => {
    fc.assert(
      fc.property(anyScript, sheets, (script, chosen) => {
        const { state, visit, now } = play(script, { sheet: chosen });
        for (const { verdict, limit } of judge(state, visit.entries, now).verdicts) {
          if (verdict === "pass" || verdict === "fail") expect(limit).not.toBeNull();
          if (chosen === null) expect(verdict).toBe("no-limit");
        }
      }),
    );
  });
  it("a turn is advised only at its own firing, within the largest step, past no limit, after no stop", () => {
    fc.assert(
      fc.property(anyScript, (script) => {
        const chosen = sheet();
        const { state, since, now } = play(script, { sheet: chosen });
        const { advice } = judge(state, since, now);
        if (advice.action !== "turn") return;
        expect(state.firing?.firing).toBe(advice.adjuster);
        expect(Math.abs(advice.turns)).toBeLessThanOrEqual(
          chosen.adjusters[advice.adjuster].largestStepTurns,
        );
        const co2Now = state.readings.findLast(
          ({ reading }) => reading.quantity === "co2" && reading.firing === advice.adjuster,
        );
        const { value = Number.NaN } = co2Now?.reading ?? {};
        if (advice.adjuster === "high") {
          // Where it is not known where CO2 stands, the worst case of the smallest step may pass the far side, not its middle.
          const middle = (advice.expect.min + advice.expect.max) / 2;
          if (advice.turns > 0) expect(middle).toBeLessThanOrEqual(9.7);
          else expect(middle).toBeGreaterThanOrEqual(8.7);
          // Inside its band CO2 is only ever lowered, where CO is too high at the top of it.
          expect(value < 8.7 || value > 9.7 || advice.turns < 0).toBe(true);
        }
      }),
      { numRuns: 300 },
    );
  });
  it("waits are whole, never negative and never longer than the settle time, even with a clock that goes back", () => {
    fc.assert(
      fc.property(anyScript, fc.integer({ min: -100, max: 5000 }), (script, seconds) => {
        const { state, since } = play(script);
        const { advice } = judge(state, since, time(seconds));
        if (advice.action !== "wait") return;
        expect(advice.seconds).toBeGreaterThan(0);
        expect(advice.seconds).toBeLessThanOrEqual(60);
        expect(Number.isInteger(advice.seconds)).toBe(true);
      }),
    );
  });
});
