import { expect, test } from "vitest";
import { utterancesOf } from "../../src/visit/utterances.ts";
import { co, co2, high, play } from "../support/visits.ts";

test("entries of one phrase stand together, the same words said again do not", () => {
  const { visit } = play([
    [0, high, co2(9)],
    [10, co(40)],
    [20, co(40)],
  ]);
  expect(utterancesOf(visit.entries).map((together) => together.map(({ seq }) => seq))).toEqual([
    [0, 1],
    [2],
    [3],
  ]);
  expect(utterancesOf([])).toEqual([]);
});
