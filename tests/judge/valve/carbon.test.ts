import { describe, expect, it } from "vitest";
import { situationOf } from "../../../src/judge/situation.ts";
import { type Carbon, carbonOf, coAt } from "../../../src/judge/valve/carbon.ts";
import { co, co2, high, play, type Said, turn } from "../../support/visits.ts";

function carbon(script: Said[]) {
  const { state, since, now } = play(script);
  return carbonOf(situationOf(state, since, now), "high");
}

const usual = Math.log(2) / 0.5;

describe("CO to expect, ppm", () => {
  const known = (co: number, co2: number, pairs: [number, number][]): Carbon => ({
    co,
    co2,
    slope: usual,
    pairs: pairs.map(([ppm, percent]) => ({ co: ppm, co2: percent })),
    max: 175,
  });
  const cases: [string, Carbon, number, number][] = [
    ["nothing else known: doubled half a percent up", known(100, 9, [[100, 9]]), 9.5, 200],
    [
      "on its floor since a leaner reading: only what may lie above it grows",
      known(100, 9, [
        [100, 8.5],
        [100, 9],
      ]),
      9.2,
      100 + 8 * Math.E,
    ],
    [
      "above its floor",
      known(120, 9, [
        [100, 8.5],
        [120, 9],
      ]),
      9.1,
      100 + 20 * Math.exp(0.5),
    ],
    [
      "too near to be a floor",
      known(100, 9, [
        [100, 8.9],
        [100, 9],
      ]),
      9.5,
      200,
    ],
    [
      "a richer reading bounds it",
      known(100, 9, [
        [100, 9],
        [110, 9.6],
      ]),
      9.6,
      132,
    ],
    [
      "not beyond the richest",
      known(100, 9, [
        [100, 9],
        [110, 9.4],
      ]),
      9.5,
      200,
    ],
    ["leaner: as now", known(100, 9, [[100, 9]]), 8.5, 100],
  ];
  it.each(cases)("%s", (_name, carbon, there, expected) =>
    expect(coAt(carbon, there)).toBeCloseTo(expected, 6),
  );
});

describe("how CO grows as the mixture gets richer", () => {
  const cases: [string, Said[], number][] = [
    ["one reading: doubled by half a percent", [[0, high, co2(9), co(40)]], usual],
    [
      "a gentler rise does not make it bolder",
      [
        [0, high, co2(8), co(40)],
        [10, turn(1)],
        [80, co2(8.5), co(45)],
      ],
      usual,
    ],
    [
      "a steeper one makes it more careful",
      [
        [0, high, co2(9), co(40)],
        [10, turn(1)],
        [80, co2(9.4), co(120)],
      ],
      (1.3 * Math.log(3)) / 0.4,
    ],
    [
      "an analyser's few ppm are no rise",
      [
        [0, high, co2(9), co(1)],
        [10, turn(1)],
        [80, co2(9.4), co(6)],
      ],
      usual,
    ],
    [
      "CO2 too near to tell",
      [
        [0, high, co2(9), co(40)],
        [10, turn(0.25)],
        [80, co2(9.1), co(80)],
      ],
      usual,
    ],
  ];
  it.each(cases)("%s", (_name, script, slope) => expect(carbon(script)?.slope).toBeCloseTo(slope, 9));
});

it("is not known without CO, or without the CO2 that belongs to it", () => {
  expect(carbon([[0, high, co2(9)]])).toBeNull();
  expect(carbon([[0, high, co(40)]])).toBeNull();
});

it("CO to expect: as read, never less when leaner, doubled half a percent up", () => {
  const known = carbon([[0, high, co2(9), co(40)]]);
  expect(known && [8.5, 9, 9.5].map((there) => coAt(known, there))).toEqual([40, 40, expect.closeTo(80, 9)]);
});
