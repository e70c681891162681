import { harmless } from "../../measure/harmless.ts";
import { isoDay } from "../../measure/zone.ts";
import type { Instrument } from "../../visit/details.ts";
import { shownDay } from "../wording.ts";
import { type Fact, fact } from "./parts.ts";

/**
 * Months after which a calibration is said to be old. UNI 10389-1:2009, 5.3.1: at least every 12 months where the maker
 * gives no instruction (a secondary source was seen); common practice elsewhere.
 */
const CALIBRATION_MONTHS = 12;

/** What measured, and how old its calibration was on the day of the visit. */
export function instrumentFacts(
  instrument: Instrument | null,
  startedAt: string,
  zone: string | null,
): Fact[] {
  if (!instrument)
    return [fact("Instrument", "not given"), fact("Calibrated on", "calibration date not given")];
  const { name, serial, calibratedOn } = instrument;
  return [
    fact("Instrument", harmless(name) || "not given"),
    fact("Serial number", harmless(serial) || "not given"),
    calibratedOn === null
      ? fact("Calibrated on", "calibration date not given")
      : fact("Calibrated on", shownDay(calibratedOn), calibrationAge(calibratedOn, isoDay(startedAt, zone))),
  ];
}

/** How old a calibration was on a day (both YYYY-MM-DD), and whether that is more than is usual. */
export function calibrationAge(calibratedOn: string, day: string): string {
  if (calibratedOn > day) return "after the day of the visit: check the date";
  const months = monthsBetween(calibratedOn, day);
  const age = months === 0 ? "less than a month" : months === 1 ? "one month" : `${months} months`;
  const isOld = plusMonths(calibratedOn, CALIBRATION_MONTHS) < day;
  return `${age} before the visit${isOld ? `: more than ${CALIBRATION_MONTHS} months, out of date by common practice` : ""}`;
}

/** Full months from one day to a later one. */
function monthsBetween(from: string, to: string): number {
  const [a, b] = [new Date(from), new Date(to)];
  const months = 12 * (b.getUTCFullYear() - a.getUTCFullYear()) + b.getUTCMonth() - a.getUTCMonth();
  return plusMonths(from, months) > to ? months - 1 : months;
}

/** The same day so many months later; the last of that month where it is shorter. */
function plusMonths(day: string, months: number): string {
  const date = new Date(day);
  const dayOfMonth = date.getUTCDate();
  date.setUTCDate(1);
  date.setUTCMonth(date.getUTCMonth() + months);
  const last = new Date(Date.UTC(date.getUTCFullYear(), date.getUTCMonth() + 1, 0)).getUTCDate();
  date.setUTCDate(Math.min(dayOfMonth, last));
  return date.toISOString().slice(0, 10);
}
