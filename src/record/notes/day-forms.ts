import { type Clock, type Day, dayOf, monthsAfter, partsOf, weekdayOf } from "./day.ts";
import { NUMBER, numberOf, ORDINAL, ordinalOf } from "./spoken-number.ts";

const UNIT = "minute|hour|day|week|month|year|fortnight";
export const WEEKDAYS = ["monday", "tuesday", "wednesday", "thursday", "friday", "saturday", "sunday"];
const WEEKDAY = WEEKDAYS.join("|");
export const TIME_OF_DAY = "(?:morning|afternoon|evening|night|lunchtime|noon)";

/** One spoken form that chrono does not know, or counts in another way. `day` gives undefined where it is none after all. */
export interface Form {
  readonly pattern: RegExp;
  readonly day: (match: RegExpMatchArray, clock: Clock) => Day | null | undefined;
}

export const FORMS: readonly Form[] = [
  {
    pattern: new RegExp(
      `(?:in|within|after) (?:about |around |another )?(${NUMBER}) (${UNIT})s?'?(?: time)?`,
      "i",
    ),
    day: later,
  },
  {
    pattern: new RegExp(`(${NUMBER}) (${UNIT})s?'?(?: time| from now| from today| today| later)`, "i"),
    day: later,
  },
  { pattern: /(?:in|within) half (?:a|an) (year)/i, day: (_, { day }) => monthsAfter(day, 6) },
  {
    pattern: /(?:on |by )?(?:(tues)|weds)/i,
    day: (match, { day }) => first(day, match[1] ? "tuesday" : "wednesday"),
  },
  { pattern: /the day after tomorrow|day after tomorrow/i, day: (_, { day }) => day + 2 },
  { pattern: /a week (?:from )?tomorrow|tomorrow week/i, day: (_, { day }) => day + 8 },
  {
    pattern: new RegExp(`(?:(?:an?|1) )?week (?:on|from|after|come) (${WEEKDAY})|(${WEEKDAY}) week`, "i"),
    day: (match, { day }) => first(day, match[1] ?? match[2]) + 7,
  },
  {
    pattern: new RegExp(`(?:two|2) weeks (?:on|from|after|come) (${WEEKDAY})`, "i"),
    day: (match, { day }) => first(day, match[1]) + 14,
  },
  {
    pattern: new RegExp(`(${WEEKDAY}) after next|(${WEEKDAY}) (?:in |of )?the week after next`, "i"),
    day: (match, { day }) => inNextWeek(day, match[1] ?? match[2]) + 7,
  },
  {
    pattern: new RegExp(
      `(?:next )(${WEEKDAY})|(${WEEKDAY}) (?:of )?next week|next week (?:on )?(${WEEKDAY})`,
      "i",
    ),
    day: (match, { day }) => inNextWeek(day, match[1] ?? match[2] ?? match[3]),
  },
  {
    pattern: new RegExp(
      `(?:on |by |for |before |until |till |from )?the (${ORDINAL})(?: of)? (next|this|the) month`,
      "i",
    ),
    day: (match, { day }) =>
      match[2]?.toLowerCase() === "the"
        ? nextDate(day, ordinalOf(match[1] ?? ""))
        : ofMonth(day, ordinalOf(match[1] ?? ""), match[2]?.toLowerCase() === "next" ? 1 : 0),
  },
  {
    pattern: new RegExp(`next month (?:on )?the (${ORDINAL})`, "i"),
    day: (match, { day }) => ofMonth(day, ordinalOf(match[1] ?? ""), 1),
  },
  {
    pattern: new RegExp(
      `(?:on|by|before|until|till|from|for) the (${ORDINAL})(?! of (?:${monthNames()})| (?:${monthNames()}))`,
      "i",
    ),
    day: (match, { day }) => (isDayOfMonth(match) ? nextDate(day, ordinalOf(match[1] ?? "")) : undefined),
  },
  {
    pattern: new RegExp(
      `(${WEEKDAY}),? (?:the )?(${ORDINAL})(?! of (?:${monthNames()})| (?:${monthNames()}))`,
      "i",
    ),
    day: (match, { day }) => {
      const date = isDayOfMonth(match) ? nextDate(day, ordinalOf(match[2] ?? "")) : undefined;
      return typeof date === "number" && weekdayOf(date) !== isoWeekday(match[1]) ? null : date;
    },
  },
  {
    pattern: new RegExp(`(?:on|by|before) the (?:${ORDINAL}) (?:and|or|to) (?:the )?(?:${ORDINAL})`, "i"),
    day: (match) => (isDayOfMonth(match) ? null : undefined),
  },
  {
    pattern: /(?:(?:by|at|before) )?(?:the )?(?:end|last day) of (?:the|this) month/i,
    day: (_, { day }) => lastOfMonth(day),
  },
  { pattern: /later today|this (?:morning|afternoon|evening)/i, day: (_, { day }) => day },
];

export function monthNames(): string {
  return "jan|feb|mar|apr|may|jun|jul|aug|sep|oct|nov|dec";
}

/** How long after the visit: hours and minutes on its clock, the rest by the calendar. More than a long life is no date. */
function later(match: RegExpMatchArray, { day, minute }: Clock): Day | null | undefined {
  const many = numberOf(match[1] ?? "");
  if (many === null || many > 1000) return undefined;
  switch (match[2]?.toLowerCase()) {
    case "hour":
      return day + Math.floor((minute + 60 * many) / 1440);
    case "minute":
      return day + Math.floor((minute + many) / 1440);
    case "day":
      return day + many;
    case "week":
      return day + 7 * many;
    case "fortnight":
      return day + 14 * many;
    case "month":
      return monthsAfter(day, many);
    case "year":
      return many > 100 ? undefined : monthsAfter(day, 12 * many);
    default:
      return undefined;
  }
}

export function isoWeekday(name: string | undefined): number {
  return WEEKDAYS.indexOf(name?.toLowerCase() ?? "") + 1;
}

function first(day: Day, name: string | undefined): Day {
  return firstAfter(day, isoWeekday(name));
}

/** The first day after `day` that is this weekday (ISO 8601). */
export function firstAfter(day: Day, weekday: number): Day {
  return day + ((weekday - weekdayOf(day) + 6) % 7) + 1;
}

/** That weekday of the week after the one that `day` is in. */
function inNextWeek(day: Day, name: string | undefined): Day {
  return day - weekdayOf(day) + 7 + isoWeekday(name);
}

/** The first day after `day` with this date, in whichever month has it. */
function nextDate(day: Day, date: number | null): Day | undefined {
  if (date === null) return undefined;
  const { year, month } = partsOf(day);
  for (let months = 0; months < 12; months++) {
    const at = dayOf(year + Math.floor((month - 1 + months) / 12), ((month - 1 + months) % 12) + 1, date);
    if (at !== null && at > day) return at;
  }
  return undefined;
}

/** Null where that month has no such date. */
function ofMonth(day: Day, date: number | null, months: number): Day | null {
  const { year, month } = partsOf(day);
  const place = month - 1 + months;
  return date === null ? null : dayOf(year + Math.floor(place / 12), (place % 12) + 1, date);
}

function lastOfMonth(day: Day): Day {
  const { date } = partsOf(day);
  const next = monthsAfter(day - date + 1, 1);
  return next - 1;
}

/** After "on the fourth" a thing may come ("on the fourth radiator", "the second screw"): then it is no date. */
const AFTER_DATE =
  /^(?:\s*$|\s*[.,;:!?)\n–—-]|\s+(?:at|in|to|and|or|but|with|for|if|then|when|before|after|as|because|so|re|about|regarding|please|from|by|first|around|about|between|unless|until|he|she|they|we|i|it|is|was|were|are|there|not|order|replace|bring|clean|check|call|ring|come|fit|tell|take)\b)/i;

function isDayOfMonth(match: RegExpMatchArray): boolean {
  const { index = 0, input = "" } = match;
  return AFTER_DATE.test(input.slice(index + match[0].length));
}
