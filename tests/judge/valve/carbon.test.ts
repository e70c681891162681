import { describe, expect, it } from "vitest";
import { situationOf } from "../../../src/judge/situation.ts";
import { carbonOf, coAt } from "../../../src/judge/valve/carbon.ts";
import { co, co2, high, play, type Said, turn } from "../../support/visits.ts";

function carbon(script: Said[]) {
  const { state, since, now } = play(script);
  return carbonOf(situationOf(state, since, now), "high");
}

const usual = Math.log(2) / 0.5;

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
