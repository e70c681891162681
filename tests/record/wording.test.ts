import { describe, expect, test } from "vitest";
import { isoDay } from "../../src/measure/zone.ts";
import {
  clockTime,
  direction,
  shownDay,
  shownDistance,
  shownLimit,
  shownTurns,
  stepSaid,
} from "../../src/record/wording.ts";

describe("how far, in words", () => {
  test.each([
    [0.125, "⅛ turn"],
    [0.25, "¼ turn"],
    [-0.5, "½ turn"],
    [1, "1 turn"],
    [1.5, "1½ turns"],
    [-2.75, "2¾ turns"],
    // Low-fire screws on many sheets go by less than any fraction with a sign of its own.
    [0.1, "1/10 turn"],
    [-1 / 12, "1/12 turn"],
    [1.1, "1.1 turns"],
    [0.33, "0.33 turn"],
    [0.249, "¼ turn"],
    [0.247, "0.247 turn"],
    [0.24, "0.24 turn"],
    [0.12, "0.12 turn"],
    [0.004, "0.004 turn"],
  ])("%f is %s", (turns, text) => expect(shownDistance(turns)).toBe(text));

  test("clockwise is positive", () => {
    expect([direction(0.1), direction(-0.1)]).toEqual(["clockwise", "counterclockwise"]);
    expect(shownTurns(-0.25)).toBe("¼ turn counterclockwise");
  });
});

test.each([
  [8.5, 9.5, "8.5 to 9.5"],
  [null, 150, "up to 150"],
  [4.5, null, "from 4.5"],
  [-0.2, 0, "−0.2 to 0"],
  [null, null, ""],
])("a limit from %s to %s is shown as %j", (min, max, text) => expect(shownLimit({ min, max })).toBe(text));

// 2026-11-25 is winter time: Vienna is UTC+1, Denver UTC-7 (IANA time zone database).
test.each([
  ["Europe/Vienna", "09:05:07"],
  ["America/Denver", "01:05:07"],
  [null, "08:05:07"],
])("the time of day in %s is %s", (zone, text) =>
  expect(clockTime("2026-11-25T08:05:07.000Z", zone)).toBe(text),
);

test.each([
  ["Europe/Vienna", "2026-11-26"],
  ["America/Denver", "2026-11-25"],
  [null, "2026-11-25"],
])("the day in %s is %s", (zone, day) => expect(isoDay("2026-11-25T23:05:07.000Z", zone)).toBe(day));

test("a day is shown as people write it, in any zone of the device", () =>
  expect(shownDay("2026-03-01")).toBe("1 Mar 2026"));

test.each([
  ["high-fire", "high", "Step: high fire"],
  ["high-fire", "low", "Next: high fire"],
  ["recheck-high", "low", "Next: recheck high fire"],
  ["low-fire", "high", "Next: low fire"],
  ["low-fire", "low", "Step: low fire"],
  ["low-fire", null, "Step: low fire"],
  ["close-up", "low", "Step: close up"],
] as const)("%s while the boiler is in %s fire: %s", (stage, firing, said) =>
  expect(stepSaid(stage, firing)).toBe(said),
);
