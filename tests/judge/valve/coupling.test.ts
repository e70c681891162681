import { expect, it } from "vitest";
import { situationOf } from "../../../src/judge/situation.ts";
import { couplingOf } from "../../../src/judge/valve/coupling.ts";
import { co2, high, low, play, type Said, turn } from "../../support/visits.ts";

function coupling(script: Said[]) {
  const { state, since, now } = play(script);
  return couplingOf(situationOf(state, since, now));
}

/** High fire, then a low-fire turn, then high fire again: what it read before, the turns, and what it reads then. */
const recheck = (before: number, turns: number, then: number): Said[] => [
  [0, high, co2(before)],
  [10, low, co2(8.5)],
  [20, turn(turns)],
  [90, high, co2(then)],
];

const unknown = coupling([[0, high, co2(9)]]);

it("is small and uncertain before anything was rechecked", () => {
  expect(unknown.likely).toBeGreaterThan(0);
  expect(unknown.likely).toBeLessThan(unknown.deviation);
});

it("grows where high fire rose with a low-fire turn, and gets surer", () => {
  const { likely, deviation } = coupling(recheck(9, 0.4, 9.3));
  expect(likely).toBeGreaterThan(unknown.likely * 2);
  expect(likely).toBeLessThan(0.75);
  expect(deviation).toBeLessThan(unknown.deviation);
});

it("falls where high fire stayed", () => {
  expect(coupling(recheck(9, 0.5, 9)).likely).toBeLessThan(unknown.likely);
});

it("learns nothing where the high-fire screw was turned as well", () => {
  const both: Said[] = [...recheck(9, 0.4, 9.3).slice(0, 3), [30, turn(0.5, "high")], [95, high, co2(9.5)]];
  expect(coupling(both)).toEqual(unknown);
});
