import { describe, expect, test } from "vitest";
import { putOffFrom, reminderOf } from "../../../src/app/backup/reminder.ts";

const NOW = "2026-11-26T12:00:00.000Z";
const at = (since: string, visitId = since) => ({ visitId, since });

describe("what stands on this device only", () => {
  test.each<readonly [string, string[], { count: number; since: string } | null]>([
    ["nothing", [], null],
    ["a visit of today", ["2026-11-26T09:00:00.000Z"], null],
    ["below 14 days", ["2026-11-12T12:00:00.001Z"], null],
    ["at 14 days", ["2026-11-12T12:00:00.000Z"], null],
    ["above 14 days", ["2026-11-12T11:59:59.999Z"], { count: 1, since: "2026-11-12T11:59:59.999Z" }],
    [
      "the younger ones count, too",
      ["2026-11-26T09:00:00.000Z", "2026-10-28T09:00:00.000Z", "2026-11-20T09:00:00.000Z"],
      { count: 3, since: "2026-10-28T09:00:00.000Z" },
    ],
    ["made by a clock that was ahead", ["2027-06-01T09:00:00.000Z"], null],
  ])("%s", (_, since, expected) => {
    expect(
      reminderOf(
        since.map((one) => at(one)),
        NOW,
        null,
      ),
    ).toEqual(expected);
  });
});

describe("put off", () => {
  const old = [at("2026-10-28T09:00:00.000Z")];
  const shown = (until: string | null) => reminderOf(old, NOW, until) !== null;
  test.each<readonly [string | null, boolean]>([
    [null, true],
    [putOffFrom(NOW), false],
    ["2026-11-26T12:00:00.001Z", false],
    [NOW, true],
    ["2026-11-26T11:59:59.000Z", true],
    // A clock that was wrong when it was put off, and what is no time at all.
    ["2036-11-26T12:00:00.000Z", true],
    ["never", true],
  ])("until %s: shown %s", (until, expected) => {
    expect(shown(until)).toBe(expected);
  });

  test("is for a week", () => {
    expect(putOffFrom(NOW)).toBe("2026-12-03T12:00:00.000Z");
  });
});
