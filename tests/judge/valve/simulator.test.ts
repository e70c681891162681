import { describe, expect, it } from "vitest";
import { sheet } from "../../support/sheets.ts";
import { Boiler } from "../../support/valve/boiler.ts";
import { drawValve, FAULTS } from "../../support/valve/draw.ts";
import { fewestAdjustments } from "../../support/valve/oracle.ts";
import { faultFound } from "../../support/valve/reason.ts";
import { byRule, smallSteps } from "../../support/valve/rule-of-thumb.ts";
import { withTheApp } from "../../support/valve/technician.ts";
import { inRange, screwsAsFound, settledCo2, turnScrew, type ValveSpec } from "../../support/valve/valve.ts";

/** A plain valve: a third of a percent a turn at high fire, two at low, no play, nothing bent. */
function valve(changes: Partial<ValveSpec> = {}): ValveSpec {
  return {
    sheet: sheet(),
    fuel: "natural-gas",
    fault: null,
    found: { high: 9.2, low: 9.05 },
    gain: { high: 0.33, low: 2 },
    bend: 0,
    play: { high: 0, low: 0 },
    slack: { high: 0, low: 0 },
    lowIntoHigh: 0.1,
    highIntoLow: 1,
    lag: 10,
    co: { floor: 20, knee: 10.5, width: 0.3 },
    noise: 0,
    supply: { static: 7, dynamic: 6 },
    ...changes,
  };
}

/** Settled CO2 after turns, given as screw and turns. */
function turned(spec: ValveSpec, ...turns: ["high" | "low", number][]) {
  return settledCo2(
    spec,
    turns.reduce((s, [screw, by]) => turnScrew(spec, s, screw, by), screwsAsFound(spec)),
  );
}

describe("the simulated valve", () => {
  // One full turn raises CO2 by about a third of a percent (common practice, no source).
  const cases: [string, ValveSpec, ["high" | "low", number][], number, number][] = [
    ["a full turn at high fire; low fire follows", valve(), [["high", 1]], 9.53, 9.38],
    ["a tenth at low fire moves high fire a little", valve(), [["low", 0.1]], 9.22, 9.25],
    [
      "bent: less and less",
      valve({ bend: 1 }),
      [["high", 2]],
      9.2 + 1 - Math.exp(-0.66),
      9.05 + 1 - Math.exp(-0.66),
    ],
    [
      "play, all of it ahead",
      valve({ play: { high: 0.1, low: 0 }, slack: { high: 1, low: 0 } }),
      [["high", 0.5]],
      9.2 + 0.33 * 0.4,
      9.05 + 0.33 * 0.4,
    ],
    [
      "play on a reversal",
      valve({ play: { high: 0.1, low: 0 } }),
      [
        ["high", 0.5],
        ["high", -0.5],
      ],
      9.2 + 0.33 * 0.1,
      9.05 + 0.33 * 0.1,
    ],
    ["dead", valve({ fault: { kind: "dead", screw: "high" } }), [["high", 1]], 9.2, 9.05],
    ["reversed", valve({ fault: { kind: "reversed", screw: "low" } }), [["low", 0.1]], 9.18, 8.85],
    [
      "the other screw is turned",
      valve({ fault: { kind: "wrong-screw", screw: "high" } }),
      [["high", 0.1]],
      9.22,
      9.25,
    ],
    [
      "at its end",
      valve({ fault: { kind: "at-its-end", screw: "high", way: 1, room: 0.2 } }),
      [["high", 9]],
      9.4,
      9.25,
    ],
  ];
  it.each(cases)("%s", (_name, spec, turns, high, low) => {
    const found = turned(spec, ...turns);
    expect(found.high).toBeCloseTo(high, 3);
    expect(found.low).toBeCloseTo(low, 3);
  });

  it("follows a touch with a lag: 63 % of the way after one time constant", () => {
    const boiler = new Boiler(valve(), 1);
    boiler.turn("high", 1, 100);
    expect(boiler.at(100)).toBeCloseTo(9.2, 6);
    expect(boiler.at(110)).toBeCloseTo(9.2 + 0.33 * (1 - Math.exp(-1)), 6);
    expect(boiler.at(160)).toBeCloseTo(9.53, 2);
  });

  it("is in range at the edges of its bands, to a tenth", () => {
    expect(inRange(valve(), { high: 8.7, low: 8.4 })).toBe(true);
    expect(inRange(valve(), { high: 8.64, low: 8.4 })).toBe(false);
    expect(inRange(valve(), { high: 9, low: 9.06 })).toBe(false);
  });
});

describe("the oracle", () => {
  const cases: [string, ValveSpec, number | null][] = [
    ["in range: nothing", valve(), 0],
    ["one step", valve({ found: { high: 8.5, low: 8.4 } }), 1],
    [
      "1.0 below at a third a turn: three steps of a turn, low fire on the way",
      valve({ found: { high: 7.7, low: 7.6 } }),
      3,
    ],
    ["low fire 0.4 below: two tenths", valve({ found: { high: 9.2, low: 8.5 } }), 2],
    [
      "a screw that does nothing: none",
      valve({ found: { high: 7, low: 6.9 }, fault: { kind: "dead", screw: "high" } }),
      null,
    ],
  ];
  it.each(cases)("%s", (_name, spec, fewest) => expect(fewestAdjustments(spec)).toBe(fewest));
});

describe("the real visit code on simulated boilers", () => {
  it.each(Array.from({ length: 25 }, (_, i) => 5001 + i))(
    "sound, seed %d: in range, past no CO limit",
    (seed) => {
      const spec = drawValve(seed);
      const fewest = fewestAdjustments(spec);
      const play = withTheApp(spec, seed);
      expect(play.lines.length).toBeGreaterThan(4);
      expect({ end: play.end, coOver: play.coOver, truly: play.truly }, play.lines.join("\n")).toEqual({
        end: "in-range",
        coOver: 0,
        truly: true,
      });
      expect(play.adjustments).toBeLessThanOrEqual((fewest ?? 0) + 3);
      expect(byRule(smallSteps, spec, seed).end).toBe("in-range");
    },
  );

  it.each(FAULTS)("%s: stopped with the right reason", (name) => {
    const play = withTheApp(drawValve(7001, name), 7001);
    expect(faultFound(name, play), play.lines.join("\n")).toBe(true);
  });
});
