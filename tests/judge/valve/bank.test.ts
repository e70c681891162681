import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { type Bank, bankOf, chanceOf, sum, suppositionsOf } from "../../../src/judge/valve/bank.ts";
import { afterPush, afterReading, afterTurn, turned } from "../../../src/judge/valve/bank-steps.ts";
import { chanceBelow, landingOf, middleOf, quantile } from "../../../src/judge/valve/landing.ts";
import { startBank } from "../../../src/judge/valve/start-bank.ts";

const START = { gain: 0.33, spread: 0.35 };

describe("play", () => {
  const screw = {
    kind: "sound",
    up: 2,
    down: 2,
    play: 0.1,
    slack: 0.1,
    mean: 9,
    variance: 0,
    weight: 1,
  } as const;
  const cases: [string, number[], number][] = [
    ["is taken up first", [0.3], 9.4],
    ["eats a small turn whole", [0.05], 9],
    ["is there again on the way back", [0.3, -0.3], 9],
    ["is taken up once", [0.3, 0.3], 10],
    ["in two bites", [0.05, 0.05, 0.1], 9.2],
    ["is all on one side at the start", [-0.1], 8.8],
  ];
  it.each(cases)("%s", (_name, turns, expected) => {
    const [end] = suppositionsOf(turns.reduce(turned, bankOf([screw])));
    expect(end?.mean).toBeCloseTo(expected, 9);
  });
});

const events = fc.array(
  fc.oneof(
    fc.record({ turn: fc.double({ min: -2, max: 2, noNaN: true }) }),
    fc.record({ read: fc.double({ min: 0, max: 20, noNaN: true }) }),
    fc.record({ push: fc.double({ min: -0.5, max: 0.5, noNaN: true }) }),
  ),
  { maxLength: 25 },
);

function played(script: readonly ({ turn: number } | { read: number } | { push: number })[]): Bank {
  return script.reduce(
    (bank: Bank, event) => {
      if ("turn" in event) return afterTurn(bank, event.turn);
      return "read" in event ? afterReading(bank, event.read, 0.06) : afterPush(bank, event.push, 0.05);
    },
    startBank(START, 9, 0.06),
  );
}

describe("whatever is turned and read", () => {
  it("probabilities sum to one, and every number is a number", () => {
    fc.assert(
      fc.property(events, (script) => {
        const bank = played(script);
        expect(sum(bank)).toBeCloseTo(1, 6);
        for (const s of suppositionsOf(bank))
          expect(Number.isFinite(s.mean + s.variance + s.weight)).toBe(true);
      }),
    );
  });

  it("more turns towards rising CO2 land higher", () => {
    fc.assert(
      fc.property(events, fc.double({ min: 0.1, max: 1, noNaN: true }), (script, turns) => {
        const bank = played(script);
        fc.pre(chanceOf(bank, "sound") > 1e-6);
        expect(middleOf(landingOf(bank, turns))).toBeGreaterThanOrEqual(middleOf(landingOf(bank, 0)) - 0.002);
      }),
    );
  });

  it("quantiles are in order, and hold the share that they name", () => {
    fc.assert(
      fc.property(events, (script) => {
        const bank = played(script);
        fc.pre(chanceOf(bank, "sound") > 1e-6);
        const landing = landingOf(bank, 0.5);
        const [low, high] = [quantile(landing, 0.05, 0.06), quantile(landing, 0.95, 0.06)];
        expect(low).toBeLessThanOrEqual(high);
        expect(chanceBelow(landing, low, 0.06)).toBeCloseTo(0.05, 1);
      }),
    );
  });
});
