import { execFileSync } from "node:child_process";
import fc from "fast-check";
import { describe, expect, test } from "vitest";
import { whensOf } from "../../../src/record/notes/when.ts";

// Days are checked against plain rules of the Gregorian calendar, counted with the UTC arithmetic of ECMAScript, and against
// Intl for the day at a place; weeks begin on Monday as in ISO 8601.

const DAY_MS = 86_400_000;

/** What the words of a text say, by the words: "friday: 2026-11-27". */
function said(text: string, at: string, zone: string | null = "Europe/London"): string {
  const whens = whensOf(text, at, zone).map(
    ({ day, from, to }) => `${text.slice(from, to)}: ${day ?? "no day"}`,
  );
  return whens.join("; ") || "-";
}

const THURSDAY = "2026-11-26T10:00:00Z";

describe("words that name a day", () => {
  test.each<[text: string, expected: string]>([
    ["today", "today: 2026-11-26"],
    ["this afternoon", "this afternoon: 2026-11-26"],
    ["tomorrow morning at nine", "tomorrow morning at nine: 2026-11-27"],
    [
      "between two and four on the 9th of December",
      "between two and four on the 9th of December: 2026-12-09",
    ],
    ["the ninth of december at half past nine", "ninth of december at half past nine: 2026-12-09"],
    ["14 December 2026 at 8 am", "14 December 2026 at 8 am: 2026-12-14"],
    ["friday 8:30", "friday 8:30: 2026-11-27"],
    ["friday from nine to eleven", "friday from nine to eleven: 2026-11-27"],
    ["friday at 2 bar", "friday: 2026-11-27"],
    ["friday at two point five percent", "friday: 2026-11-27"],
    ["friday at thirty percent", "friday: 2026-11-27"],
    ["the day after tomorrow", "the day after tomorrow: 2026-11-28"],
    ["friday", "friday: 2026-11-27"],
    ["Wed", "-"],
    ["on wed", "on wed: 2026-12-02"],
    ["thursday", "thursday: 2026-12-03"],
    ["this friday", "this friday: 2026-11-27"],
    ["next friday", "next friday: 2026-12-04"],
    ["friday next week", "friday next week: 2026-12-04"],
    ["next week on friday", "next week on friday: 2026-12-04"],
    ["friday after next", "friday after next: 2026-12-11"],
    ["friday week", "friday week: 2026-12-04"],
    ["a week on friday", "a week on friday: 2026-12-04"],
    ["two weeks on friday", "two weeks on friday: 2026-12-11"],
    ["a week tomorrow", "a week tomorrow: 2026-12-04"],
    ["in two weeks", "in two weeks: 2026-12-10"],
    ["in 2 weeks' time", "in 2 weeks' time: 2026-12-10"],
    ["two weeks from today", "two weeks from today: 2026-12-10"],
    ["within ten days", "within ten days: 2026-12-06"],
    ["in ninety-nine days", "in ninety-nine days: 2027-03-05"],
    ["in a fortnight", "in a fortnight: 2026-12-10"],
    ["in half a year", "in half a year: 2027-05-26"],
    ["on the fourth", "on the fourth: 2026-12-04"],
    ["on the twenty-sixth", "on the twenty-sixth: 2026-12-26"],
    ["on the 31st", "on the 31st: 2026-12-31"],
    ["the 4th of next month", "the 4th of next month: 2026-12-04"],
    ["next month on the 30th", "next month on the 30th: 2026-12-30"],
    ["march 3rd", "march 3rd: 2027-03-03"],
    ["the third of march", "third of march: 2027-03-03"],
    ["26 november", "26 november: 2026-11-26"],
    ["25 november", "25 november: 2027-11-25"],
    ["by 4 Dec 2026", "4 Dec 2026: 2026-12-04"],
    ["on 14/3", "14/3: 2027-03-14"],
    ["31.12.2026", "31.12.2026: 2026-12-31"],
    ["4/4/2027", "4/4/2027: 2027-04-04"],
    ["2027-01-31", "2027-01-31: 2027-01-31"],
    ["29 february", "29 february: 2028-02-29"],
    ["friday the fourth", "friday the fourth: 2026-12-04"],
    ["on monday the 30th of november", "on monday the 30th of november: 2026-11-30"],
    ["the end of the month", "the end of the month: 2026-11-30"],
    ["in 13 hours", "in 13 hours: 2026-11-26"],
    ["in 14 hours", "in 14 hours: 2026-11-27"],
    ["in 840 minutes", "in 840 minutes: 2026-11-27"],
  ])("%s", (text, expected) => {
    expect(said(text, THURSDAY)).toBe(expected);
  });
});

describe("words that name none, or more than one", () => {
  test.each<[text: string, words: string]>([
    ["before the heating season starts", "before the heating season starts"],
    ["before winter", "before winter"],
    ["in spring", "in spring"],
    ["next week", "next week"],
    ["early next week", "early next week"],
    ["at the weekend", "at the weekend"],
    ["next month", "next month"],
    ["in march", "in march"],
    ["by the end of march", "by the end of march"],
    ["at the next service", "at the next service"],
    ["on the next visit", "on the next visit"],
    ["next time", "next time"],
    ["when the new part arrives", "when the new part arrives"],
    ["once they are in stock", "once they are in stock"],
    ["as soon as possible", "as soon as possible"],
    ["in a few days", "in a few days"],
    ["in a couple of weeks", "in a couple of weeks"],
    ["in two or three weeks", "in two or three weeks"],
    ["in a week and a half", "in a week and a half"],
    ["in a month or so", "in a month or so"],
    ["monday or tuesday", "monday or tuesday"],
    ["monday to wednesday", "monday to wednesday"],
    ["on 3/4", "3/4"],
    ["3/4/2027", "3/4/2027"],
    ["friday the fifth", "friday the fifth"],
    ["saturday 4 december", "saturday 4 december"],
    ["on february 30th", "february 30th"],
  ])("%s", (text, words) => {
    expect(said(text, THURSDAY)).toBe(`${words}: no day`);
  });
});

describe("what is no day to come", () => {
  test.each([
    "",
    "yesterday",
    "last friday",
    "every friday",
    "fridays",
    "two weeks ago",
    "last march",
    "3 march 2020",
    "2026-11-25",
    "nine point two",
    "CO2 9.2",
    "4 mm",
    "30 kW",
    "2/3 turn",
    "3/8 socket",
    "22 mm",
    "on the fourth radiator",
    "the second screw",
    "by the third bend",
    "the sun was in my eyes",
    "he sat down",
    "it may 2 times",
    "we march 5 miles",
    "two weeks old",
    "a day",
    "10 day old dirt",
    "at two thirty",
    "at 9.30",
    "number 5 12 2026",
    "in 2000000 years",
    "in 999 years",
    "monkeys",
    "5 sec",
    "in 4 m",
  ])("%s", (text) => {
    expect(said(text, THURSDAY)).toBe("-");
  });
});

describe("the day is that of the place, near midnight and over a change of the clocks", () => {
  test.each<[at: string, zone: string | null, text: string, day: string]>([
    ["2026-11-26T23:30:00Z", "Europe/London", "tomorrow", "2026-11-27"],
    ["2026-11-26T23:30:00Z", "Europe/Berlin", "tomorrow", "2026-11-28"],
    ["2026-11-26T00:30:00Z", "America/New_York", "tomorrow", "2026-11-26"],
    ["2026-11-26T23:30:00Z", null, "tomorrow", "2026-11-27"],
    ["2026-11-26T23:30:00+05:00", "UTC", "tomorrow", "2026-11-27"],
    ["2026-11-26T23:30:00Z", "No/Where", "tomorrow", "2026-11-27"],
    ["2026-12-31T23:30:00Z", "Asia/Tokyo", "on friday", "2027-01-08"],
    // The clocks go forward at 01:00 UTC on 29 March 2026 and back at 01:00 UTC on 25 October 2026 in Europe (Directive 2000/84/EC).
    ["2026-03-28T23:30:00Z", "Europe/London", "tomorrow", "2026-03-29"],
    ["2026-03-29T00:59:59Z", "Europe/London", "in two weeks", "2026-04-12"],
    ["2026-03-29T23:30:00Z", "Europe/London", "tomorrow", "2026-03-31"],
    ["2026-10-24T22:30:00Z", "Europe/London", "in a week", "2026-10-31"],
    ["2026-10-24T23:30:00Z", "Europe/London", "in a week", "2026-11-01"],
    ["2026-10-25T23:30:00Z", "Europe/London", "in a week", "2026-11-01"],
    ["2026-01-31T12:00:00Z", null, "in a month", "2026-02-28"],
    ["2028-01-31T12:00:00Z", null, "in a month", "2028-02-29"],
    ["2028-02-29T12:00:00Z", null, "in a year", "2029-02-28"],
    ["2026-12-31T12:00:00Z", null, "on the 31st", "2027-01-31"],
    ["2026-12-31T12:00:00Z", null, "the end of the month", "2026-12-31"],
    ["2026-01-31T12:00:00Z", null, "on the 30th", "2026-03-30"],
    ["2026-11-29T12:00:00Z", null, "next sunday", "2026-12-06"],
    ["2026-11-29T12:00:00Z", null, "next monday", "2026-11-30"],
    ["2026-11-30T12:00:00Z", null, "next monday", "2026-12-07"],
    ["2026-11-30T12:00:00Z", null, "next tuesday", "2026-12-08"],
  ])("%s in %s: %s", (at, zone, text, day) => {
    expect(said(text, at, zone)).toBe(`${text}: ${day}`);
  });
});

const ZONES = [
  "UTC",
  "Europe/London",
  "America/St_Johns",
  "Asia/Kathmandu",
  "Pacific/Kiritimati",
  "Pacific/Pago_Pago",
];
const anyMoment = fc.record({
  at: fc
    .date({
      min: new Date("2000-01-01T00:00:00Z"),
      max: new Date("2090-01-01T00:00:00Z"),
      noInvalidDate: true,
    })
    .map((date) => date.toISOString()),
  zone: fc.constantFrom(...ZONES),
});
const NAMES = ["sunday", "monday", "tuesday", "wednesday", "thursday", "friday", "saturday"];

/** The day at a place as Intl writes it, as its midnight in UTC. */
const isoDay = (at: string, zone: string) =>
  Date.parse(new Intl.DateTimeFormat("sv-SE", { timeZone: zone, dateStyle: "short" }).format(new Date(at)));
const iso = (ms: number) => new Date(ms).toISOString().slice(0, 10);
const day = (text: string, at: string, zone: string) => whensOf(text, at, zone)[0]?.day;

describe("whatever the day", () => {
  test("a weekday is the first of its name after it; next, that of the week after, from Monday", () => {
    fc.assert(
      fc.property(anyMoment, fc.integer({ min: 0, max: 6 }), ({ at, zone }, weekday) => {
        const today = isoDay(at, zone);
        const days = [1, 2, 3, 4, 5, 6, 7].map((ahead) => today + ahead * DAY_MS);
        const first = days.find((ms) => new Date(ms).getUTCDay() === weekday) ?? Number.NaN;
        expect(day(`on ${NAMES[weekday]}`, at, zone)).toBe(iso(first));
        expect(day(`${NAMES[weekday]} week`, at, zone)).toBe(iso(first + 7 * DAY_MS));
        const monday = days.find((ms) => new Date(ms).getUTCDay() === 1) ?? Number.NaN;
        expect(day(`next ${NAMES[weekday]}`, at, zone)).toBe(iso(monday + ((weekday + 6) % 7) * DAY_MS));
      }),
    );
  });
  test("days and weeks are counted by the calendar", () => {
    fc.assert(
      fc.property(anyMoment, fc.integer({ min: 1, max: 999 }), ({ at, zone }, many) => {
        const today = isoDay(at, zone);
        expect(day(`in ${many} days`, at, zone)).toBe(iso(today + many * DAY_MS));
        expect(day(`in ${many} weeks`, at, zone)).toBe(iso(today + 7 * many * DAY_MS));
        expect(day("tomorrow", at, zone)).toBe(iso(today + DAY_MS));
      }),
    );
  });
  test("months keep the date, or the last of a shorter month", () => {
    fc.assert(
      fc.property(anyMoment, fc.integer({ min: 1, max: 40 }), ({ at, zone }, many) => {
        const today = new Date(isoDay(at, zone));
        const [year, month] = [today.getUTCFullYear(), today.getUTCMonth() + many];
        const last = new Date(Date.UTC(year, month + 1, 0)).getUTCDate();
        const expected = Date.UTC(year, month, Math.min(today.getUTCDate(), last));
        expect(day(`in ${many} months`, at, zone)).toBe(iso(expected));
      }),
    );
  });
  test("a date of a month is the first to come that there is", () => {
    fc.assert(
      fc.property(anyMoment, fc.integer({ min: 1, max: 31 }), ({ at, zone }, date) => {
        const found = day(
          `on the ${date}${["th", "st", "nd", "rd"][date % 10 < 4 && ![11, 12, 13].includes(date) ? date % 10 : 0]}`,
          at,
          zone,
        );
        const today = isoDay(at, zone);
        const next = Array.from({ length: 62 }, (_, ahead) => today + (ahead + 1) * DAY_MS);
        expect(found).toBe(iso(next.find((ms) => new Date(ms).getUTCDate() === date) ?? Number.NaN));
      }),
    );
  });
});

// Chrono counts in the time zone of the process; what a note says must not.
test("under any time zone of the process the same", { timeout: 120_000 }, () => {
  const under = (TZ: string) =>
    execFileSync(process.execPath, ["--import", "tsx", "tests/support/notes-print.ts"], {
      env: { ...process.env, TZ },
      encoding: "utf8",
    });
  const utc = under("UTC");
  expect(utc.split("\n").length).toBeGreaterThan(900);
  for (const zone of ["America/Los_Angeles", "Pacific/Kiritimati", "Europe/London", "America/Santiago"])
    expect(under(zone)).toBe(utc);
});
