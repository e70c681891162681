import { expect, test } from "vitest";
import { knownIn } from "../../src/visit/known.ts";
import { co, co2, gas, play } from "../support/visits.ts";

test("the last of each quantity, unit and firing, the newest last", () => {
  const { state } = play([
    [0, co2(9, "high")],
    [1, gas(7, "static", "mbar")],
    [2, co2(8.8, "low")],
    [3, gas(3, "static", "[in_i'H2O]")],
    [4, co(40)],
    [5, co2(9.2, "high")],
  ]);
  expect(knownIn(state).map(({ value, unit, firing }) => `${value} ${unit} ${firing}`)).toEqual([
    "7 mbar null",
    "8.8 % low",
    "3 [in_i'H2O] null",
    "40 [ppm] low",
    "9.2 % high",
  ]);
});
