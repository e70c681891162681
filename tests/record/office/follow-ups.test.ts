import { describe, expect, test } from "vitest";
import { byDue, dueStand, type FollowUp, followUpsOf } from "../../../src/record/office/follow-ups.ts";
import { foldVisit } from "../../../src/visit/fold.ts";
import type { Task } from "../../../src/visit/task.ts";
import type { Visit } from "../../../src/visit/visit.ts";
import { andThen, officeVisit } from "../../support/office.ts";
import { co2, note, strike } from "../../support/visits.ts";

// The visits of the tests are on 25 November 2026, a Wednesday.

const noted = (...texts: string[]) =>
  officeVisit(
    "v",
    texts.map((text, place) => [60 * (place + 1), note(text)]),
  );

const short = (visit: Visit) => followUpsOf(visit).map(({ short, due }) => [short, due]);

describe("what the notes of a visit leave to be done", () => {
  test.each<readonly [string, Visit, unknown]>([
    ["nothing was noted", officeVisit("v", [[60, co2(9.1, "high")]]), []],
    ["a note that asks for nothing", noted("it hums"), []],
    ["what was done in the visit is none", noted("cleaned the burner"), []],
    [
      "with a day",
      noted("replace the condensate trap gasket in two weeks"),
      [["Replace condensate trap gasket", "2026-12-09"]],
    ],
    ["a season is no day", noted("come back before the heating season"), [["Come back", null]]],
    [
      "the same twice in one note is once",
      noted("order a gasket and order a gasket"),
      [["Order gasket", null]],
    ],
    [
      "the same in two notes is twice",
      noted("order a gasket", "order a gasket"),
      [
        ["Order gasket", null],
        ["Order gasket", null],
      ],
    ],
    [
      "a note that was struck",
      officeVisit("v", [
        [60, note("order a gasket")],
        [70, strike],
      ]),
      [],
    ],
  ])("%s", (_, visit, expected) => expect(short(visit)).toEqual(expected));

  test("points at the words for when", () => {
    const [found] = followUpsOf(noted("come back before the heating season"));
    expect(found).toMatchObject({ dueWords: "before the heating season", by: "words", who: null });
  });
});

describe("the key of a follow-up", () => {
  const visit = noted("order a gasket");
  const [id = ""] = foldVisit(visit).items.map((item) => item.id);
  const keys = (of: Visit) => followUpsOf(of).map(({ key }) => key);
  const said = (thing: string, due: string | null): Task => ({
    action: { value: "order", span: null },
    thing: { value: thing, span: null },
    due: due === null ? null : { value: due, span: null },
    who: null,
    done: false,
  });
  const mended = (task: Task) => andThen(visit, { kind: "tasks", target: id, tasks: [task] });

  test("stays when the visit goes on, and when a reviewer says the same", () => {
    const before = keys(visit);
    expect(before).toHaveLength(1);
    expect(keys(andThen(visit, { kind: "reviewed", by: "R. T." }))).toEqual(before);
    expect(keys(mended(said("gasket", null)))).toEqual(before);
  });

  test.each([
    ["another thing", said("electrode", null)],
    ["another day", said("gasket", "2026-12-01")],
  ])("is another where a reviewer has said %s", (_, task) => {
    expect(keys(mended(task))).not.toEqual(keys(visit));
    expect(followUpsOf(mended(task))).toMatchObject([{ by: "reviewer" }]);
  });

  test("is another for each note", () => {
    expect(new Set(keys(noted("order a gasket", "order a gasket"))).size).toBe(2);
  });
});

test.each([
  ["2026-11-24", "overdue"],
  ["2026-11-25", "today"],
  ["2026-11-26", "later"],
  [null, "undated"],
] as const)("due on %s, seen on 25 November, is %s", (due, stand) =>
  expect(dueStand({ due }, "2026-11-25")).toBe(stand),
);

test("the earliest first, those without a day last, as noted", () => {
  const of = (due: string | null, at: string) => ({ due, at }) as FollowUp;
  const all = [
    of(null, "2"),
    of("2026-12-01", "1"),
    of(null, "1"),
    of("2025-01-01", "3"),
    of("2026-12-01", "0"),
  ];
  expect([...all].sort(byDue).map(({ due, at }) => [due, at])).toEqual([
    ["2025-01-01", "3"],
    ["2026-12-01", "0"],
    ["2026-12-01", "1"],
    [null, "1"],
    [null, "2"],
  ]);
});
