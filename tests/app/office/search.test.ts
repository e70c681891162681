import fc from "fast-check";
import { describe, expect, test } from "vitest";
import {
  ALL,
  COLUMNS,
  type Column,
  folded,
  type ListedVisit,
  listed,
  narrowed,
  sorted,
  type Wanted,
} from "../../../src/app/office/search.ts";
import type { Details } from "../../../src/visit/details.ts";
import type { Visit, VisitHead } from "../../../src/visit/visit.ts";
import { andThen, officeVisit } from "../../support/office.ts";
import { sheet } from "../../support/sheets.ts";
import { co, co2, note, type Said } from "../../support/visits.ts";
import { keptVisit } from "./kept-visits.ts";

const NONE: ReadonlySet<string> = new Set();

const visit = (
  id: string,
  startedAt: string,
  details: Partial<Details>,
  script: readonly Said[] = [],
  head: Partial<VisitHead> = {},
): Visit => officeVisit(id, script, details, { startedAt, title: `Boiler ${id}`, ...head });

const MILL = visit(
  "mill",
  "2026-03-01T09:00:00.000Z",
  { place: "Mühle am Bach", appliance: "B-17", technician: "R. Thorn" },
  [[60, co2(9.2, "high"), co(40, "high"), note("order a gasket"), note("cleaned the siphon")]],
  { sheet: { ...sheet({}), title: "Tall 36 kW, natural gas or propane" } },
);
const SCHOOL = andThen(
  visit(
    "school",
    "2025-06-10T09:00:00.000Z",
    { place: "Quince Row school", appliance: "B-4", technician: "A. Weiß" },
    [[60, co2(10.4, "high"), co(300, "high")]],
    { zone: "Pacific/Auckland" },
  ),
  { kind: "reviewed", by: "M. Office" },
);
const HALL = visit("hall", "2024-12-31T23:30:00.000Z", {}, [], {
  fuel: "propane",
  sheet: null,
  zone: "Europe/Vienna",
});
const LIST: readonly ListedVisit[] = [MILL, SCHOOL, HALL].map((each) => listed(keptVisit(each), NONE));

const ids = (wanted: Partial<Wanted>) => narrowed(LIST, { ...ALL, ...wanted }).map(({ id }) => id);

test("only those whose log is altered", () => {
  const altered = LIST.map((each) =>
    each.id === "hall" ? { ...each, log: { verdict: "altered" as const, key: null } } : each,
  );
  expect(narrowed(altered, { ...ALL, onlyAltered: true }).map(({ id }) => id)).toEqual(["hall"]);
  expect(ids({ onlyAltered: true })).toEqual([]);
});

describe("what a search finds", () => {
  test.each<readonly [string, Partial<Wanted>, string[]]>([
    ["nothing wanted: all", {}, ["mill", "school", "hall"]],
    ["only spaces: all", { words: "  " }, ["mill", "school", "hall"]],
    ["part of a word", { words: "quin" }, ["school"]],
    ["without its diacritics", { words: "muhle" }, ["mill"]],
    ["in capitals", { words: "MÜHLE" }, ["mill"]],
    ["with a diacritic more than there is", { words: "quincé" }, ["school"]],
    ["ss for ß", { words: "weiss" }, ["school"]],
    ["all words, in any order and field", { words: "thorn b-17 boiler" }, ["mill"]],
    ["not where one word is missing", { words: "thorn b-4" }, []],
    ["in the note of a follow-up", { words: "gasket" }, ["mill"]],
    ["in a note of what was done", { words: "SIPHON" }, ["mill"]],
    ["in the sheet's title", { words: "tall 36 kW" }, ["mill"]],
    ["a year", { words: "2026" }, ["mill"]],
    ["a day as shown", { words: "1 Mar 2026" }, ["mill"]],
    ["a day by ISO 8601", { words: "2025-06-10" }, ["school"]],
    ["that of the place", { words: "2025-01-01" }, ["hall"]],
    ["a day on which nobody was anywhere", { words: "2025-06-11" }, []],
    ["the reviewer", { words: "m. office" }, ["school"]],
    ["the gas by its name", { words: "propane" }, ["hall"]],
    ["signs of a pattern are plain letters", { words: ".*" }, []],
    ["an outcome", { outcome: "out-of-limits" }, ["school"]],
    ["not judged", { outcome: "not-judged" }, ["hall"]],
    ["a gas", { fuel: "propane" }, ["hall"]],
    ["not reviewed", { onlyUnreviewed: true }, ["mill", "hall"]],
    ["with follow-ups", { onlyFollowUps: true }, ["mill"]],
    ["since a day, itself with it", { since: "2026-03-01" }, ["mill"]],
    ["since the day after", { since: "2026-03-02" }, []],
    ["until a day, itself with it", { until: "2025-06-10" }, ["school", "hall"]],
    ["until the day before", { until: "2025-06-09" }, ["hall"]],
    // 23:30 UTC on New Year's Eve is the new year in Vienna.
    ["the day is that of the place", { since: "2025-01-01", until: "2025-01-01" }, ["hall"]],
    ["all of it together", { words: "boiler", fuel: "natural-gas", onlyUnreviewed: true }, ["mill"]],
  ])("%s", (_, wanted, expected) => expect(ids(wanted)).toEqual(expected));

  test("open things: closing checks that nobody confirmed", () => {
    expect(ids({ onlyOpen: true })).toEqual(LIST.filter(({ row }) => row.open > 0).map(({ id }) => id));
    expect(LIST.some(({ row }) => row.open > 0)).toBe(true);
  });

  test("a follow-up that was marked as done is none any more", () => {
    const [kept] = LIST;
    const done = new Set(kept?.followUps.map(({ key }) => key));
    const [after] = [MILL].map((each) => listed(keptVisit(each), done));
    expect([kept?.openFollowUps, after?.openFollowUps]).toEqual([1, 0]);
  });
});

// Unicode Standard, section 3.13: case folding makes ß and SS alike.
test.each([
  ["Straße", "STRASSE"],
  ["Île", "ile"],
  ["ﬁlter", "Filter"],
  ["Ångström", "angstrom"],
])("%s and %s are the same to a search", (a, b) => expect(folded(a)).toBe(folded(b)));

describe("the order of the list", () => {
  const order = (column: Column, descending = false) =>
    sorted(LIST, { column, descending }).map(({ id }) => id);

  test.each<readonly [Column, string[], string[]]>([
    ["day", ["hall", "school", "mill"], ["mill", "school", "hall"]],
    ["title", ["hall", "mill", "school"], ["school", "mill", "hall"]],
    // What is missing comes last either way.
    ["place", ["mill", "school", "hall"], ["school", "mill", "hall"]],
    // B-4 before B-17: numbers in texts count as numbers.
    ["appliance", ["school", "mill", "hall"], ["mill", "school", "hall"]],
    ["gas", ["mill", "school", "hall"], ["hall", "mill", "school"]],
    ["technician", ["school", "mill", "hall"], ["mill", "school", "hall"]],
    ["outcome", ["school", "mill", "hall"], ["hall", "mill", "school"]],
    ["high-co2", ["mill", "school", "hall"], ["school", "mill", "hall"]],
    ["high-co", ["mill", "school", "hall"], ["school", "mill", "hall"]],
    ["low-co2", ["mill", "school", "hall"], ["mill", "school", "hall"]],
    ["follow-ups", ["school", "hall", "mill"], ["mill", "school", "hall"]],
    ["reviewed", ["school", "mill", "hall"], ["school", "mill", "hall"]],
  ])("by %s, both ways", (column, up, down) => {
    expect(order(column)).toEqual(up);
    expect(order(column, true)).toEqual(down);
  });

  test("nothing is lost or doubled, by any column", () =>
    fc.assert(
      fc.property(fc.constantFrom(...COLUMNS), fc.boolean(), (column, descending) => {
        expect(order(column, descending).toSorted()).toEqual(["hall", "mill", "school"]);
      }),
    ));
});
