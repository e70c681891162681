import { describe, expect, it } from "vitest";
import { CLOSING_CHECKS } from "../../src/measure/firing.ts";
import { check, co2, gas, high, play, room, type Said, turn } from "../support/visits.ts";

const stateOf = (...script: Said[]) => play(script).state;

describe("a closing check is taken back by work that opens what was closed", () => {
  const open = (...script: Said[]) =>
    Object.entries(stateOf([0, ...CLOSING_CHECKS.map((item) => check(item))], ...script).checks)
      .filter(([, done]) => done)
      .map(([item]) => item);
  const left = (...undone: string[]) => CLOSING_CHECKS.filter((item) => !undone.includes(item));
  const cases: [string, Said, readonly string[]][] = [
    ["the low-fire screw: its cap", [5, turn(0.1, "low")], left("low-fire-cap")],
    ["the high-fire screw: none", [5, turn(0.1, "high")], left()],
    ["a flue reading: the port", [5, co2(9)], left("test-port")],
    ["at a firing: test mode as well", [5, co2(9, "high")], left("test-port", "test-mode-off")],
    [
      "gas pressure: manometer, screw, and the leak check after it",
      [5, gas(7, "static")],
      left("manometer-removed", "pressure-test-screw", "leak-check"),
    ],
    [
      "the tap opened: the same",
      [5, check("pressure-tap")],
      left("manometer-removed", "pressure-test-screw", "leak-check"),
    ],
    ["a firing: test mode", [5, high], left("test-mode-off")],
    ["the room: none", [5, room(0)], left()],
    ["confirmed again", [5, turn(0.1, "low"), check("low-fire-cap")], left()],
  ];
  it.each(cases)("%s", (_name, script, expected) =>
    expect(
      open(script)
        .filter((item) => item !== "pressure-tap")
        .sort(),
    ).toEqual([...expected].sort()),
  );
  it.each<[string, Said[], boolean]>([
    [
      "before the screw is closed",
      [
        [5, check("leak-check")],
        [9, check("pressure-test-screw")],
      ],
      false,
    ],
    ["in one breath with it", [[5, check("leak-check"), check("pressure-test-screw")]], true],
    [
      "after it",
      [
        [5, check("pressure-test-screw")],
        [9, check("leak-check")],
      ],
      true,
    ],
    [
      "the screw confirmed once more",
      [
        [5, check("pressure-test-screw")],
        [7, check("leak-check")],
        [9, check("pressure-test-screw")],
      ],
      true,
    ],
  ])("a leak check %s counts: %s", (_name, script, counts) =>
    expect(stateOf([0, gas(7, "static")], ...script).checks["leak-check"] ?? false).toBe(counts),
  );
});
