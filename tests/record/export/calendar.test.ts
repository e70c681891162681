import fc from "fast-check";
import ICAL from "ical.js";
import { describe, expect, test } from "vitest";
import { visible } from "../../../src/measure/harmless.ts";
import { calendarOf } from "../../../src/record/export/calendar.ts";
import { foldLines } from "../../../src/record/export/fold-lines.ts";
import { followUpsOf } from "../../../src/record/export/follow-up.ts";
import { printable } from "../../../src/record/export/text.ts";
import { taskInShort } from "../../../src/record/task-words.ts";
import { NO_DETAILS } from "../../../src/visit/details.ts";
import { foldVisit } from "../../../src/visit/fold.ts";
import type { Task } from "../../../src/visit/task.ts";
import type { Visit } from "../../../src/visit/visit.ts";
import { VISIT } from "../visit.ts";
import { anyHostileVisit } from "./hostile.ts";

// Outside reference: ical.js, an independent reader of RFC 5545.

const NOW = "2026-11-25T12:34:56.000Z";

const task = (
  action: Task["action"]["value"],
  more: Partial<Record<"thing" | "due" | "who", string>> = {},
): Task => ({
  action: { value: action, span: null },
  thing: more.thing === undefined ? null : { value: more.thing, span: null },
  due: more.due === undefined ? null : { value: more.due, span: null },
  who: more.who === undefined ? null : { value: more.who as "customer", span: null },
  done: false,
});

/** A visit with one note and what it means. */
function noted(text: string, tasks: readonly Task[]): Visit {
  const at = "2026-11-25T09:10:00.000Z";
  const by = { at, engine: "typed" as const, phrase: text, said: text, confidence: 1 };
  return {
    ...VISIT,
    entries: [
      { id: "n1", seq: 0, ...by, body: { kind: "note", text } },
      { id: "t1", seq: 1, ...by, body: { kind: "tasks", target: "n1", tasks: [...tasks] } },
      {
        id: "d1",
        seq: 2,
        ...by,
        body: {
          kind: "details",
          details: { ...NO_DETAILS, appliance: "B-17", place: "Mill Lane 2; cellar" },
        },
      },
    ],
  };
}

const read = (calendar: string) => new ICAL.Component(ICAL.parse(calendar));
const parts = (calendar: string) =>
  ["vevent", "vtodo"].flatMap((kind) => read(calendar).getAllSubcomponents(kind));
const value = (part: ICAL.Component | undefined, name: string) =>
  part?.getFirstPropertyValue(name)?.toString() ?? null;

describe("a follow-up with a day", () => {
  const calendar = calendarOf(
    [
      noted("Order a trap gasket, come back on Tuesday", [
        task("order", { thing: "trap gasket", due: "2026-12-01" }),
      ]),
    ],
    NOW,
  );
  const [event] = parts(calendar);

  test("is an event of that whole day that keeps nobody busy (RFC 5545, 3.6.1, 3.8.2.7)", () => {
    expect(event?.name).toBe("vevent");
    expect(event && new ICAL.Event(event).startDate.isDate).toBe(true);
    expect(["dtstart", "duration", "transp"].map((name) => value(event, name))).toEqual([
      "2026-12-01",
      "P1D",
      "TRANSPARENT",
    ]);
    expect(event && new ICAL.Event(event).duration.toString()).toBe("P1D");
  });

  test.each(["1000-01-01", "2028-02-29", "9999-12-31"])("on %s, too", (due) => {
    const [far] = parts(calendarOf([noted("x", [task("order", { due })])], NOW));
    expect(value(far, "dtstart")).toBe(due);
  });

  test("says what, where and in which words", () => {
    expect(["summary", "location", "description", "dtstamp"].map((name) => value(event, name))).toEqual([
      "Order trap gasket, Mill Lane 2; cellar",
      "Mill Lane 2; cellar",
      "“Order a trap gasket, come back on Tuesday”\nAppliance: B-17\nVisit: Invented\nNoted: 2026-11-25T10:10:00.000+01:00",
      "2026-11-25T12:34:56Z",
    ]);
  });
});

test("a follow-up without a day is a to-do without a due day; what was done is none", () => {
  const tasks = [
    task("clean", { thing: "burner" }),
    { ...task("replace", { thing: "gasket" }), done: true },
    { ...task("order"), due: { value: null, span: { from: 6, to: 12 } } },
  ];
  const calendar = calendarOf([noted("Clean burner before the heating season", tasks)], NOW);
  expect(
    parts(calendar).map((part) => [
      part.name,
      value(part, "summary"),
      value(part, "status"),
      value(part, "due"),
    ]),
  ).toEqual([
    ["vtodo", "Clean burner, Mill Lane 2; cellar", "NEEDS-ACTION", null],
    ["vtodo", "Order, Mill Lane 2; cellar", "NEEDS-ACTION", null],
  ]);
});

describe("a task in short", () => {
  test.each<[Task, string]>([
    [task("replace", { thing: "condensate trap gasket" }), "Replace condensate trap gasket"],
    [task("call", { who: "customer" }), "Call the customer"],
    [task("tell", { who: "office", thing: "price of the pump" }), "Tell the office: price of the pump"],
    [task("return"), "Come back"],
    [task("return", { thing: "fan" }), "Come back: fan"],
    [task("quote", { thing: "new flue" }), "Quote for new flue"],
    [task("other", { thing: "the smell in the hall" }), "The smell in the hall"],
    [task("other"), "the note's words"],
  ])("%j", (each, words) => expect(taskInShort(each, "the note's words")).toBe(words));
});

describe("RFC 5545", () => {
  test("3.1: the folded example unfolds, and folds at 75 octets", () => {
    const folded = "DESCRIPTION:This is a lo\r\n ng description\r\n  that exists on a long line.\r\n";
    expect(foldLines(folded)).toBe("DESCRIPTION:This is a long description that exists on a long line.\r\n");
    expect(foldLines(`X:${"a".repeat(73)}\r\n`)).toBe(`X:${"a".repeat(73)}\r\n`);
    expect(foldLines(`X:${"a".repeat(74)}\r\n`)).toBe(`X:${"a".repeat(73)}\r\n a\r\n`);
    // 3.1: a character of several octets is not cut.
    expect(foldLines(`X:${"a".repeat(72)}ä\r\n`)).toBe(`X:${"a".repeat(72)}\r\n ä\r\n`);
  });

  test("3.3.11: the example of a text, with its escapes", () => {
    const words = "Project XYZ Final Review\nConference Room - 3B\nCome Prepared.";
    const calendar = calendarOf([noted(words, [task("other")])], NOW);
    expect(calendar.replaceAll("\r\n ", "")).toContain(
      "SUMMARY:Project XYZ Final Review\\nConference Room - 3B\\nCome Prepared.\\, Mill Lane 2\\; cellar\r\n",
    );
    expect(value(parts(calendar)[0], "summary")).toBe(`${words}, Mill Lane 2; cellar`);
  });

  test("3.4: every line ends in CRLF; 3.6: version and maker", () => {
    const calendar = calendarOf([noted("x", [task("order")])], NOW);
    expect(calendar.replaceAll("\r\n", "")).not.toMatch(/[\r\n]/);
    expect(calendar).toMatch(/^BEGIN:VCALENDAR\r\nVERSION:2\.0\r\nPRODID:.+\r\n[\s\S]*END:VCALENDAR\r\n$/);
  });
});

test("taking the same in twice changes nothing: UIDs are those of the first time, and each only once", () => {
  const visits = [noted("a", [task("order"), task("clean", { due: "2026-12-01" })])];
  const uids = (now: string) => parts(calendarOf(visits, now)).map((part) => value(part, "uid"));
  expect(uids(NOW)).toEqual(uids("2027-01-01T00:00:00.000Z"));
  expect(new Set(uids(NOW)).size).toBe(2);
});

test("whatever was said comes back in its own property, and no line is longer than 75 octets", () => {
  let seen = 0;
  fc.assert(
    fc.property(fc.array(anyHostileVisit, { minLength: 1, maxLength: 3 }), (some) => {
      const visits = some.map((visit, place) => ({
        ...visit,
        head: { ...visit.head, id: `v${place}${visit.head.id}` },
      }));
      const calendar = calendarOf(visits, NOW);
      for (const line of calendar.split("\r\n")) {
        expect(Buffer.byteLength(line)).toBeLessThanOrEqual(75);
        // 3.3.11: no control characters but tabs.
        expect(line).not.toMatch(/(?!\t)\p{Cc}/u);
      }
      const followUps = followUpsOf(visits);
      const read = parts(calendar);
      const details = (visit: Visit) => foldVisit(visit).details;
      const words = (text: string) =>
        printable(text)
          .split(/\r\n?|\n/)
          .map(visible)
          .join("\n");
      const isDated = ({ task: { due } }: (typeof followUps)[number]) => due?.value != null;
      const inOrder = [...followUps.filter(isDated), ...followUps.filter((one) => !isDated(one))];
      expect(read.map((part) => [part.name, value(part, "summary"), value(part, "dtstart")])).toEqual(
        inOrder.map(({ visit, note, task: each }) => [
          each.due?.value == null ? "vtodo" : "vevent",
          words(
            [taskInShort(each, note.text), details(visit).place.trim() || visit.head.title.trim()]
              .filter(Boolean)
              .join(", "),
          ),
          each.due?.value ?? null,
        ]),
      );
      for (const [place, part] of read.entries())
        expect(value(part, "description")).toContain(words(inOrder[place]?.note.text ?? "?"));
      const uids = read.map((part) => value(part, "uid"));
      expect(new Set(uids).size).toBe(uids.length);
      seen += read.length;
    }),
    { numRuns: 300 },
  );
  expect(seen).toBeGreaterThan(100);
});
