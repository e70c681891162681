import { describe } from "vitest";
import { co2, room, turn } from "../../support/visits.ts";
import { proved, test } from "./told.ts";

describe("read too early", () => {
  test([
    ["a second before", [proved, [10, turn(0.25)], [69, co2(9.3)]], ["read-too-early"]],
    ["at the minute", [proved, [10, turn(0.25)], [70, co2(9.3)]], []],
    ["the room can be read at once", [proved, [10, turn(0.25)], [12, room(3)]], []],
  ]);
});
