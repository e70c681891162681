import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { sheet } from "../../support/sheets.ts";
import { Boiler } from "../../support/valve/boiler.ts";
import { drawValve, FAULTS, type FaultName } from "../../support/valve/draw.ts";
import { fewestAdjustments } from "../../support/valve/oracle.ts";
import type { Play } from "../../support/valve/play.ts";
import { faultFound } from "../../support/valve/reason.ts";
import { byRule, smallSteps } from "../../support/valve/rule-of-thumb.ts";
import { withTheApp } from "../../support/valve/technician.ts";
import {
  inRange,
  isCoOver,
  screwsAsFound,
  settledCo2,
  trueCo,
  turnScrew,
  type ValveSpec,
} from "../../support/valve/valve.ts";

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
      "loose: nothing for a turn and more",
      valve({
        fault: { kind: "loose", screw: "high" },
        play: { high: 3, low: 0 },
        slack: { high: 0.5, low: 0 },
      }),
      [["high", 1.5]],
      9.2,
      9.05,
    ],
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
    [
      "and back from there",
      valve({ fault: { kind: "at-its-end", screw: "high", way: 1, room: 0.2 } }),
      [["high", -1]],
      8.87,
      8.72,
    ],
    ["the burner burns no leaner than this", valve(), [["low", -9]], 7.4, 4],
  ];
  it.each(cases)("%s", (_name, spec, turns, high, low) => {
    const found = turned(spec, ...turns);
    expect(found.high).toBeCloseTo(high, 3);
    expect(found.low).toBeCloseTo(low, 3);
  });

  it("rises with every further turn, whatever the valve, on both firings", () => {
    const more = fc.double({ min: 0, max: 3, noNaN: true });
    fc.assert(
      fc.property(fc.nat(), fc.constantFrom("high", "low"), more, more, (seed, screw, turns, further) => {
        const spec = drawValve(seed);
        const less = turned(spec, [screw, turns]);
        const most = turned(spec, [screw, turns + further]);
        expect(most.high).toBeGreaterThanOrEqual(less.high - 1e-9);
        expect(most.low).toBeGreaterThanOrEqual(less.low - 1e-9);
      }),
    );
  });

  it("makes more CO the richer it burns: the floor when lean, 20 ppm more at the knee, 2.7 times that one width on", () => {
    const spec = valve();
    expect([8, 10.5, 10.8].map((co2) => trueCo(spec, co2))).toEqual([
      expect.closeTo(20, 0),
      expect.closeTo(40, 9),
      expect.closeTo(20 + 20 * Math.E, 9),
    ]);
    expect(["high" as const, "low" as const].map((firing) => isCoOver(spec, firing, 11.1))).toEqual([
      false,
      false,
    ]);
    expect(isCoOver(spec, "high", 11.2)).toBe(true);
  });

  it("is read to a tenth and to a whole ppm, with the analyser's noise around the truth", () => {
    const spec = valve({ noise: 0.05, found: { high: 9.24, low: 9 } });
    const boiler = new Boiler(spec, 1);
    const shown = Array.from({ length: 400 }, (_, i) => boiler.read(i));
    const mean = shown.reduce((total, { co2 }) => total + co2, 0) / shown.length;
    expect(mean).toBeCloseTo(9.24, 1);
    expect(new Set(shown.map(({ co2 }) => co2)).size).toBeGreaterThan(1);
    for (const { co2, co } of shown) {
      expect(co2 * 10).toBeCloseTo(Math.round(co2 * 10), 6);
      expect(Number.isInteger(co)).toBe(true);
    }
  });

  it("is the same for the same seed", () => {
    expect(drawValve(17)).toEqual(drawValve(17));
    expect(drawValve(17)).not.toEqual(drawValve(18));
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
    [
      "low fire alone is out: none at high fire",
      valve({ found: { high: 9.2, low: 9.4 }, gain: { high: 0.33, low: 3 } }),
      1,
    ],
    [
      "play ahead costs a step",
      valve({
        found: { high: 8.5, low: 8.4 },
        play: { high: 1, low: 0 },
        slack: { high: 1, low: 0 },
      }),
      2,
    ],
    [
      "past the far side with every fraction: a step up and a smaller one back",
      valve({ gain: { high: 0.33, low: 40 }, lowIntoHigh: 0, found: { high: 9.2, low: 8.5 } }),
      2,
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

describe("a faulty boiler counts as found", () => {
  const text = "High fire C O 2 does not answer the screw: it does nothing. Get help.";
  const stopped: Play = {
    ...byRule(smallSteps, valve(), 1),
    end: "stopped",
    reason: text,
    warnings: [{ code: "no-response", text }],
  };
  const cases: [string, FaultName, Partial<Play>, boolean][] = [
    ["stopped for what is wrong", "dead high", {}, true],
    ["for something else", "reversed high", {}, false],
    ["for the other firing", "dead low", {}, false],
    ["not stopped", "dead high", { end: "in-range" }, false],
    ["warned of, but stopped for another reason", "dead high", { reason: "Gas pressure is out." }, false],
    ["no warning at all", "dead high", { warnings: [] }, false],
  ];
  it.each(cases)("%s", (_name, fault, changes, found) =>
    expect(faultFound(fault, { ...stopped, ...changes })).toBe(found),
  );

  it("for CO over its limit, only where it truly is", () => {
    const co = "High fire C O is over its limit.";
    const play: Play = { ...stopped, reason: co, warnings: [{ code: "flue-co-over-limit", text: co }] };
    expect(faultFound("dead high", { ...play, coTruly: true })).toBe(true);
    expect(faultFound("dead high", { ...play, coTruly: false })).toBe(false);
  });
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
