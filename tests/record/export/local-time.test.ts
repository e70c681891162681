import fc from "fast-check";
import { describe, expect, test } from "vitest";
import { localTime, utcTime } from "../../../src/record/export/local-time.ts";

// Outside source: the IANA time zone database, as the platform's ICU has it.

describe("the time at the place, with its offset", () => {
  test.each([
    ["2026-11-25T09:00:00.000Z", "Europe/Vienna", "2026-11-25T10:00:00.000+01:00"],
    ["2026-07-01T09:00:00.000Z", "Europe/Vienna", "2026-07-01T11:00:00.000+02:00"],
    // The clock is put back at 01:00 UTC: the hour from two to three is there twice.
    ["2026-10-25T00:30:00.000Z", "Europe/Vienna", "2026-10-25T02:30:00.000+02:00"],
    ["2026-10-25T01:30:00.000Z", "Europe/Vienna", "2026-10-25T02:30:00.000+01:00"],
    ["2026-01-01T02:00:00.000Z", "America/St_Johns", "2025-12-31T22:30:00.000-03:30"],
    ["2026-11-25T20:00:00.000Z", "Asia/Kathmandu", "2026-11-26T01:45:00.000+05:45"],
    ["2026-11-25T09:00:00.000Z", "UTC", "2026-11-25T09:00:00.000+00:00"],
    ["2026-11-25T09:00:00.000Z", "Europe/London", "2026-11-25T09:00:00.000+00:00"],
    ["2026-11-25T11:00:00+02:00", "Europe/Vienna", "2026-11-25T10:00:00.000+01:00"],
  ])("%s in %s is %s", (at, zone, local) => expect(localTime(at, zone)).toBe(local));

  test.each([[null], ["Nowhere/At_All"], [""], ["__proto__"]])("of the zone %j nothing is said", (zone) =>
    expect(localTime("2026-11-25T09:00:00.000Z", zone)).toBeNull(),
  );
});

test("it is the same moment, whatever the zone", () => {
  const zones = fc.constantFrom(...Intl.supportedValuesOf("timeZone"));
  const times = fc.date({ min: new Date("1990-01-01"), max: new Date("2099-12-31"), noInvalidDate: true });
  fc.assert(
    fc.property(zones, times, (zone, time) => {
      const at = time.toISOString();
      expect(Date.parse(localTime(at, zone) ?? "")).toBe(time.getTime());
      expect(utcTime(at)).toBe(at);
    }),
    { numRuns: 500 },
  );
});
