import { DAY_MS } from "../../measure/instant.ts";
import { zoneFormats } from "../../measure/zone.ts";
/** A day as whole days since 1 January 1970 in the Gregorian calendar, of no time zone. */
export type Day = number;

/** Weekdays as ISO 8601 counts them: Monday 1 to Sunday 7. */
export function weekdayOf(day: Day): number {
  // 1 January 1970 was a Thursday.
  return ((((day + 3) % 7) + 7) % 7) + 1;
}

/** Null where there is no such day. Month from 1. */
export function dayOf(year: number, month: number, date: number): Day | null {
  const at = new Date(0);
  at.setUTCFullYear(year, month - 1, date);
  const isThat = at.getUTCFullYear() === year && at.getUTCMonth() === month - 1 && at.getUTCDate() === date;
  return isThat ? at.getTime() / DAY_MS : null;
}

export interface Parts {
  readonly year: number;
  /** From 1. */
  readonly month: number;
  readonly date: number;
}

export function partsOf(day: Day): Parts {
  const at = new Date(day * DAY_MS);
  return { year: at.getUTCFullYear(), month: at.getUTCMonth() + 1, date: at.getUTCDate() };
}

/** The same date so many months later; in a shorter month its last day, as people count. */
export function monthsAfter(day: Day, months: number): Day {
  const { year, month, date } = partsOf(day);
  const first = new Date(0);
  first.setUTCFullYear(year, month - 1 + months, 1);
  return first.getTime() / DAY_MS + Math.min(date, monthLength(first)) - 1;
}

function monthLength(first: Date): number {
  const next = new Date(first);
  next.setUTCMonth(next.getUTCMonth() + 1);
  return Math.round((next.getTime() - first.getTime()) / DAY_MS);
}

/** YYYY-MM-DD; null beyond the years that are written so. */
export function isoOf(day: Day): string | null {
  const { year, month, date } = partsOf(day);
  const two = (n: number) => String(n).padStart(2, "0");
  return year >= 1000 && year <= 9999 ? `${year}-${two(month)}-${two(date)}` : null;
}

/** The wall clock at a place: its day, and the minutes since midnight. */
export interface Clock {
  readonly day: Day;
  readonly minute: number;
}

const wallClock = zoneFormats("en-GB", {
  calendar: "gregory",
  numberingSystem: "latn",
  year: "numeric",
  month: "numeric",
  day: "numeric",
  hour: "numeric",
  minute: "numeric",
  hourCycle: "h23",
});

/** The wall clock at a time (ISO 8601) in an IANA zone; in UTC where that is null or unknown. Null for what is no time. */
export function clockAt(at: string, zone: string | null): Clock | null {
  const instant = new Date(at);
  if (Number.isNaN(instant.getTime())) return null;
  const parts = new Map(
    wallClock(zone)
      .formatToParts(instant)
      .map(({ type, value }) => [type, value]),
  );
  const number = (type: Intl.DateTimeFormatPartTypes) => Number(parts.get(type));
  const day = dayOf(number("year"), number("month"), number("day"));
  return day === null ? null : { day, minute: 60 * number("hour") + number("minute") };
}
