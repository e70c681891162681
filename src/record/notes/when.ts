import { Chrono, configuration, type ParsedResult, type Parser } from "chrono-node/en";
import { type Clock, clockAt, type Day, dayOf, isoOf, partsOf, weekdayOf } from "./day.ts";
import { FORMS, type Form, firstAfter, isoWeekday, monthNames, TIME_OF_DAY, WEEKDAYS } from "./day-forms.ts";
import { noDays } from "./no-day.ts";
import { ORDINAL } from "./spoken-number.ts";
import { timeBefore, timeBehind } from "./time-of-day.ts";

/** Words of a note that say when. UTF-16 units. */
export interface When {
  /** The day that they name, YYYY-MM-DD; null where they name none, or more than one. */
  readonly day: string | null;
  readonly from: number;
  readonly to: number;
  /** Whether it is only of what is said before it: "replace it once it is drained". */
  readonly isBehind?: boolean;
}

/**
 * When a text says that something is to be, in its order, as seen from a time (`at`, ISO 8601) at a place (`zone`, IANA; null
 * is UTC). Only what is not over: days before that day are left out. Conventions:
 * - "Friday", "on Friday", "this Friday": the first Friday after the day of the visit. "Friday week": a week after that.
 * - "next Friday": the Friday of the next week, weeks beginning on Monday (ISO 8601).
 * - "the fourth": the first fourth of a month after the day of the visit. "March 3rd": the first from that day on.
 * - "in a month": the same date of the next month, in a shorter one its last day.
 * - "by Friday", "before Friday": Friday, the day that is named.
 * - "3/4" is the third of April for some, the fourth of March for others: no day. So is a Friday that is none.
 * The days are counted here, not by chrono, which counts in the time zone of the process.
 */
export function whensOf(text: string, at: string, zone: string | null): readonly When[] {
  const clock = clockAt(at, zone);
  const named = clock && MAY_NAME.test(text) ? joined(text, daysNamed(text, clock)) : [];
  const today = clock?.day ?? 0;
  const unnamed = noDays(text).filter(
    ({ from, to }) => !isVisitOfDay(text.slice(from), to - from, from, named),
  );
  const whens: Found[] = [...named, ...unnamed.map((found) => ({ ...found, day: null }))];
  return apart(whens)
    .filter(({ day }) => day === null || day >= today)
    .map(({ day, from, to }) => ({ day: day === null ? null : isoOf(day), from, to }));
}

const NEXT_VISIT = /^next (?:visit|appointment|service|call)$/i;

/** "next visit 14 December": the visit that the day is of, and not a time without a day. */
function isVisitOfDay(rest: string, length: number, from: number, named: readonly Found[]): boolean {
  if (!NEXT_VISIT.test(rest.slice(0, length))) return false;
  const [between = ""] = /^[\s,:]*(?:(?:is|on|due|booked|for)\s+)*/i.exec(rest.slice(length)) ?? [];
  return named.some((day) => day.from >= from + length && day.from <= from + length + between.length);
}

/** Without any of these no day is named: most notes have none, and chrono takes longer than all else. */
const MAY_NAME = new RegExp(
  `\\d|day|week|month|year|fortnight|morrow|tmr|noon|morning|evening|night|hour|minute|mon|tue|wed|thu|fri|sat|sun|${monthNames()}|${ORDINAL}`,
  "i",
);

/** A day; null: unsure which. */
interface Found {
  readonly day: Day | null;
  readonly from: number;
  readonly to: number;
}

/** A form as a parser of chrono. What it finds is marked as certain; what names more than one day has no year. */
function parserOf({ pattern, day }: Form, clock: Clock): Parser {
  return {
    pattern: () => pattern,
    extract: (context: Parameters<Parser["extract"]>[0], match: RegExpMatchArray) => {
      const index = match.index ?? 0;
      // Chrono looks on from the middle of the text: what stands around has to be seen in the whole of it.
      const whole = Object.assign([...match] as RegExpMatchArray, { index, input: context.text });
      const found = isWhole(context.text, index, index + match[0].length) ? day(whole, clock) : undefined;
      if (found === undefined) return null;
      const parts = found === null ? { hour: 12 } : asComponents(found);
      return context.createParsingComponents(parts).addTag(OURS);
    },
  };
}

const OURS = "burnerside";

function asComponents(day: Day): { year: number; month: number; day: number } {
  const { year, month, date } = partsOf(day);
  return { year, month, day: date };
}

function isWhole(text: string, from: number, to: number): boolean {
  const isLetter = (at: string | undefined) => at !== undefined && /[\p{L}\p{N}]/u.test(at);
  return !isLetter(text[from - 1]) && !isLetter(text[to]);
}

const ENGLISH = configuration.createCasualConfiguration(true).parsers;

/** All days that are named, also those that are over. */
function daysNamed(text: string, clock: Clock): Found[] {
  const parsers = [...FORMS.map((form) => parserOf(form, clock)), ...ENGLISH];
  const chrono = new Chrono({ parsers, refiners: [] });
  // Of what chrono finds only what was said is taken, which is the same at any time.
  return chrono.parse(text, new Date(0)).flatMap((result) => {
    const [lead = ""] = /^[\s,(（]*/.exec(result.text) ?? [];
    const from = result.index + lead.length;
    const to = result.index + result.text.replace(/[\s,)）]+$/, "").length;
    const day = isWhole(text, from, to) ? dayFound(result, text, clock) : undefined;
    return day === undefined ? [] : [{ day, from, to }];
  });
}

/** The day of what chrono found; undefined for what names none. */
function dayFound(result: ParsedResult, text: string, { day: today }: Clock): Day | null | undefined {
  const { start } = result;
  const said = (part: "year" | "month" | "day" | "weekday") =>
    start.isCertain(part) ? start.get(part) : null;
  const [year, month, date, weekday] = [said("year"), said("month"), said("day"), said("weekday")];
  const words = result.text.replace(/^[\s,(（]+|[\s,)）]+$/g, "").toLowerCase();
  const before = text.slice(0, result.index);
  if (start.tags().has(OURS))
    return year === null || month === null || date === null ? null : dayOf(year, month, date);
  if (start.tags().has("result/relativeDate")) return undefined;
  if (words === "today" || words === "tonight") return today;
  if (/^(?:tomorrow|tmrw?)$/.test(words)) return today + 1;
  if (start.tags().has("parser/ENCasualDateParser")) return undefined;
  if (month !== null && date !== null) {
    if (!isDate(words, before)) return undefined;
    if (isEitherWay(words)) return null;
    return year === null ? nextOfYear(today, month, date) : dayOf(year, month, date);
  }
  if (weekday === null || date !== null || words.includes("weekend") || !isWeekday(words, before))
    return undefined;
  return firstAfter(today, weekday === 0 ? 7 : weekday);
}

const TOWARDS = /\b(?:on|by|before|until|till|from|for|next|this|date|due)\s+(?:the\s+)?$/i;

/** "may 2", "2 march on", "2/3 turn" are dates only where it is clear that they are. */
function isDate(words: string, before: string): boolean {
  if (/^\d{4}-/.test(words)) return true;
  if (/^[\d/.-]+$/.test(words)) return /\d{4}$/.test(words) || TOWARDS.test(before);
  const isPlain = /^(?:on\s+)?\d{1,2}\s*(?:may|march|mar)$|^(?:may|march|mar)\s*\d{1,2}$/.test(words);
  return !isPlain || words.startsWith("on ") || TOWARDS.test(before) || /^\s*$/.test(before);
}

/** Of "3/4" nobody knows which is the month. */
function isEitherWay(words: string): boolean {
  const [, one, other] = /^(\d{1,2})[/.-](\d{1,2})/.exec(words) ?? [];
  return one !== undefined && Number(one) <= 12 && Number(other) <= 12 && Number(one) !== Number(other);
}

/** Short names are words as well ("sat", "sun", "wed"); "last Friday" is over, "Fridays" come again and again. */
function isWeekday(words: string, before: string): boolean {
  const name = words.split(/\s+/).at(-1) ?? "";
  if (/\b(?:last|past|every|each)\s*$/i.test(before) || /^(?:last|past)\b/.test(words)) return false;
  return (
    WEEKDAYS.includes(name) ||
    /^(?:mon|tue|thurs?|thu|fri)$/.test(name) ||
    /^(?:on|next|this)\s/.test(words) ||
    TOWARDS.test(before.replace(/\bthe\s+$/i, "x"))
  );
}

/** The first such day of a year from today on; null where no year has it. */
function nextOfYear(today: Day, month: number, date: number): Day | null {
  const { year } = partsOf(today);
  for (let years = 0; years < 9; years++) {
    const at = dayOf(year + years, month, date);
    if (at !== null && at >= today) return at;
  }
  return null;
}

/** Of what overlaps the longest, the first of the same length; in the order of the text. */
function apart(found: readonly Found[]): Found[] {
  const kept: Found[] = [];
  for (const one of [...found].sort((a, b) => b.to - b.from - (a.to - a.from)))
    if (kept.every((other) => one.to <= other.from || one.from >= other.to)) kept.push(one);
  return kept.sort((a, b) => a.from - b.from);
}

/** A weekday with its date is one day; "Monday or Tuesday", "from the 4th to the 6th" are none; a time of day is its day's. */
function joined(text: string, all: readonly Found[]): Found[] {
  return apart(all)
    .reduce<Found[]>((done, one) => {
      const last = done.at(-1);
      const between = last ? text.slice(last.to, one.from) : "";
      if (last && /^[\s,]*(?:the\s+)?$/i.test(between)) {
        done[done.length - 1] = { ...last, to: one.to, day: isSameDay(text, last, one) ? one.day : null };
      } else if (last && /^\s*(?:or|and|to|until|till|through|-|–)\s*(?:on |by |the )*$/i.test(between)) {
        done[done.length - 1] = { ...last, to: one.to, day: null };
      } else done.push(one);
      return done;
    }, [])
    .map((one) => withTimeOfDay(text, one));
}

/** "Monday" before "the 30th of November": only where that is one. */
function isSameDay(text: string, { from, to }: Found, { day }: Found): boolean {
  const name = text.slice(from, to).split(/\s+/).at(-1);
  return day !== null && WEEKDAYS.includes(name?.toLowerCase() ?? "") && weekdayOf(day) === isoWeekday(name);
}

const AFTERWARDS = new RegExp(`^ (?:in the |at )?${TIME_OF_DAY}\\b`, "i");

function withTimeOfDay(text: string, one: Found): Found {
  const [more = ""] = AFTERWARDS.exec(text.slice(one.to)) ?? [];
  const to = one.to + more.length;
  return {
    ...one,
    from: one.from - timeBefore(text.slice(0, one.from)),
    to: to + timeBehind(text.slice(to)),
  };
}
