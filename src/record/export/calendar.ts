import { generateIcsCalendar, type IcsEvent, type IcsTodo } from "ts-ics";
import { visible } from "../../measure/harmless.ts";
import { foldVisit } from "../../visit/fold.ts";
import type { Visit } from "../../visit/visit.ts";
import { followUpKey } from "../office/follow-ups.ts";
import { taskInShort } from "../task-words.ts";
import { type DoneMarks, NONE_DONE } from "./done-marks.ts";
import { foldLines } from "./fold-lines.ts";
import { type FollowUp, followUpsOf } from "./follow-up.ts";
import { localTime, utcTime } from "./local-time.ts";
import { printable } from "./text.ts";

/** RFC 5545, section 3.7.3: a name of its own for what made the calendar. */
const MADE_BY = "-//Burnerside//Follow-ups 1//EN";

/**
 * The follow-ups of visits as a calendar file (RFC 5545). What has a day is an event of that whole day that keeps nobody busy
 * (phones and office calendars show events, but often no to-dos); what has none is a to-do without a due day. The same
 * follow-up always has the same UID, so that taking a file in twice changes nothing. `now` is ISO 8601; what is
 * marked as `done` is left out.
 */
export function calendarOf(visits: readonly Visit[], now: string, done: DoneMarks = NONE_DONE): string {
  const stamp = { date: new Date(now) };
  const events: IcsEvent[] = [];
  const todos: Omit<IcsTodo, "due" | "start" | "duration">[] = [];
  for (const followUp of openFollowUpsOf(visits, done)) {
    const day = followUp.task.due?.value ?? null;
    const entry = { uid: uidOf(followUp), stamp, ...wordsOf(followUp) };
    if (day === null) todos.push({ ...entry, status: "NEEDS-ACTION" });
    else events.push({ ...entry, ...wholeDay(day), timeTransparent: "TRANSPARENT" });
  }
  // A to-do may have no due day (section 3.6.2); the library writes it so, but its type knows of none.
  const calendar = { version: "2.0", prodId: MADE_BY, events, todos: todos as IcsTodo[] } as const;
  return foldLines(generateIcsCalendar(calendar));
}

/** What is still to be done, and nobody has marked as done since. */
export function openFollowUpsOf(visits: readonly Visit[], done: DoneMarks): FollowUp[] {
  return followUpsOf(visits).filter((each) => !done.has(followUpKey(each)));
}

/** The same for the same follow-up in every export, and in letters that need no escape. */
function uidOf({ visit, note, place }: FollowUp): string {
  const part = (id: string) => encodeURIComponent(printable(id));
  return `burnerside/${part(visit.head.id)}/${part(note.id)}/${place + 1}`;
}

function wordsOf({ visit, note, task }: FollowUp): Pick<IcsEvent, "summary" | "description" | "location"> {
  const { head } = visit;
  const { appliance, place } = foldVisit(visit).details;
  const description = [
    `“${note.text}”`,
    appliance && `Appliance: ${appliance}`,
    head.title && `Visit: ${head.title}`,
    `Noted: ${localTime(note.at, head.zone) ?? utcTime(note.at)}`,
  ];
  return {
    summary: plain(
      [taskInShort(task, note.text), place.trim() || head.title.trim()].filter(Boolean).join(", "),
    ),
    description: plain(description.filter(Boolean).join("\n")),
    ...(place === "" ? {} : { location: plain(place) }),
  };
}

/** Lines, as people read them: line feeds as the only line ends, which the library escapes, and nothing that steers. */
function plain(text: string): string {
  return printable(text)
    .split(/\r\n?|\n/)
    .map(visible)
    .join("\n");
}

/** A day, YYYY-MM-DD, as a whole (section 3.6.1). Its length and not the next day: of the last day of 9999 there is none. */
function wholeDay(day: string): Pick<IcsEvent, "start"> & { duration: { days: 1 } } {
  return { start: { type: "DATE", date: new Date(`${day}T00:00:00Z`) }, duration: { days: 1 } };
}
