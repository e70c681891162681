import { expect, test } from "vitest";
import { calibrationAge, instrumentFacts } from "../../../src/record/report/instrument.ts";

// UNI 10389-1:2009, 5.3.1: at least every 12 months where the maker gives no instruction (a secondary source was seen);
// elsewhere common practice, no source.
const OLD = ": more than 12 months, out of date by common practice";

test.each([
  ["2026-11-25", "less than a month before the visit"],
  ["2026-10-26", "less than a month before the visit"],
  ["2026-10-25", "one month before the visit"],
  ["2026-05-31", "5 months before the visit"],
  ["2025-11-26", "11 months before the visit"],
  ["2025-11-25", "12 months before the visit"],
  ["2025-11-24", `12 months before the visit${OLD}`],
  ["2024-02-29", `32 months before the visit${OLD}`],
  ["2026-11-26", "after the day of the visit: check the date"],
])("calibrated on %s, visit on 25 November 2026: %s", (calibrated, said) =>
  expect(calibrationAge(calibrated, "2026-11-25")).toBe(said),
);

test("twelve months from the 29th of February end with February", () => {
  expect(calibrationAge("2024-02-29", "2025-02-28")).toBe("12 months before the visit");
  expect(calibrationAge("2024-02-29", "2025-03-01")).toContain(OLD);
});

test("the day is that of the place: just after midnight there it is the next", () => {
  const instrument = { name: "", serial: "", calibratedOn: "2025-11-24" };
  const note = (zone: string | null) =>
    instrumentFacts(instrument, "2026-11-24T23:30:00Z", zone).at(-1)?.note;
  expect(note(null)).not.toContain("more than");
  expect(note("Europe/Vienna")).toContain("more than");
});

test("a date that was not given is said not to be", () =>
  expect(
    instrumentFacts({ name: "Analyser", serial: "", calibratedOn: null }, "2026-11-24T23:30:00Z", null),
  ).toEqual([
    expect.objectContaining({ name: "Instrument", text: "Analyser" }),
    expect.objectContaining({ name: "Serial number", text: "not given" }),
    expect.objectContaining({ name: "Calibrated on", text: "calibration date not given" }),
  ]));
