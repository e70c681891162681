import { expect, test } from "vitest";
import { followUpList } from "../../../src/app/office/follow-up-list.ts";
import { listed } from "../../../src/app/office/search.ts";
import { officeVisit } from "../../support/office.ts";
import { note } from "../../support/visits.ts";
import { keptVisit } from "./kept-visits.ts";

/** A visit that began on a day of 2026 at 8:00 UTC, as its office lists it; its entries are of 25 November. */
const visit = (id: string, appliance: string, startedAt: string, said = "order a gasket") =>
  listed(
    keptVisit(
      officeVisit(
        id,
        [[60, note(said)]],
        { appliance },
        { startedAt: `2026-${startedAt}`, zone: "Europe/Vienna" },
      ),
    ),
    new Set(),
  );
const FIRST = visit("a", "B-17", "11-25T08:00:00.000Z");
const later = (appliance: string, startedAt: string) => visit("b", appliance, startedAt, "all is well");

test.each([
  ["none", [], null],
  ["on the next day", [later("B-17", "11-26T08:00:00.000Z")], "2026-11-26"],
  ["the day is that of the place", [later("B-17", "11-26T23:30:00.000Z")], "2026-11-27"],
  ["its number spaced and capitalised otherwise", [later(" b-17", "11-26T08:00:00.000Z")], "2026-11-26"],
  ["at another appliance", [later("B-18", "11-26T08:00:00.000Z")], null],
  ["without a number", [later("", "11-26T08:00:00.000Z")], null],
  ["before it", [later("B-17", "11-24T08:00:00.000Z")], null],
  ["after it began, but before it was noted", [later("B-17", "11-25T08:00:30.000Z")], null],
  [
    "of several the last",
    [visit("d", "B-17", "12-03T08:00:00.000Z", "all is well"), later("B-17", "11-26T08:00:00.000Z")],
    "2026-12-03",
  ],
])("visited since: %s", (_, others, day) => {
  for (const visits of [
    [FIRST, ...others],
    [...others, FIRST],
  ]) {
    const [row, ...more] = followUpList(visits, new Map(), "2026-12-04");
    expect(more).toEqual([]);
    expect(row?.visitedSince?.day ?? null).toBe(day);
    // Told, and open as before.
    expect(row).toMatchObject({ done: null, visit: { id: "a" } });
  }
});

test("where two visits have no number, neither is since the other", () => {
  const visits = [visit("a", "", "11-25T08:00:00.000Z"), visit("b", " ", "11-26T08:00:00.000Z")];
  expect(followUpList(visits, new Map(), "2026-12-04").map((row) => row.visitedSince)).toEqual([null, null]);
});

test("what somebody marked as done needs no look", () => {
  const [key = ""] = FIRST.followUps.map((each) => each.key);
  const mark = { key, visitId: "a", at: "2026-11-27T08:00:00.000Z", by: "M. Office" };
  const visits = [FIRST, later("B-17", "11-26T08:00:00.000Z")];
  const list = followUpList(visits, new Map([[key, mark]]), "2026-12-04");
  expect(list).toMatchObject([{ done: mark, visitedSince: null }]);
});
