import { readFileSync } from "node:fs";
import fc from "fast-check";
import { describe, expect, test } from "vitest";
import { importVisit, visitFrom } from "../../../src/record/bundle.ts";
import {
  exportOf,
  judgedAnew,
  KeptVisit,
  lineOf,
  merge,
  type Revision,
} from "../../../src/record/office/kept.ts";
import { type LogFound, NOTHING_FOUND } from "../../../src/record/office/log-found.ts";
import { revisionsOf } from "../../../src/record/office/revision.ts";
import type { Visit } from "../../../src/visit/visit.ts";
import { andThen, officeVisit, upTo } from "../../support/office.ts";
import { co, co2, note, turn } from "../../support/visits.ts";

const WHOLE = officeVisit("v", [
  [60, co2(9.9, "high"), co(90, "high")],
  [120, turn(-0.5, "high")],
  [240, co2(9.2, "high"), note("order a gasket")],
]);
const EARLY = upTo(WHOLE, 2);
const LATE = andThen(WHOLE, { kind: "reviewed", by: "R. T." });
/** As late as the other, and longer ago. */
const OTHER = andThen(WHOLE, { kind: "reviewed", by: "Somebody else" }, 30);

function visitOf(text: string): Visit {
  const read = visitFrom(JSON.parse(text));
  if (!read.ok) throw new Error("no visit");
  return read.visit;
}

/** Takes in exports one after the other: how each was taken, and what is kept at the end. */
function taken(...visits: Visit[]) {
  let known: Revision[] = [];
  let kept: KeptVisit | null = null;
  const ways = visits.map((visit, place) => {
    const merged = merge(
      known,
      exportOf(visit, NOTHING_FOUND, `${place}.json`, "2026-11-26T08:00:00.000Z"),
      visitOf,
    );
    if (merged.added) known = [...known, merged.added];
    kept = merged.kept ?? kept;
    return merged.as;
  });
  return { ways, known, kept: KeptVisit.parse(kept) };
}

describe("exports of one visit, in the order in which they come", () => {
  test.each<readonly [string, Visit[], string[], number, boolean]>([
    ["one", [WHOLE], ["new"], 1, false],
    ["the same twice", [WHOLE, WHOLE], ["new", "same"], 1, false],
    ["a later one supersedes", [EARLY, WHOLE, LATE], ["new", "newer", "newer"], 3, false],
    ["an earlier one is kept beside", [LATE, EARLY], ["new", "older"], 2, false],
    ["a superseded one again", [EARLY, LATE, EARLY], ["new", "newer", "same"], 2, false],
    ["two that part", [WHOLE, LATE, OTHER], ["new", "newer", "forked"], 3, true],
  ])("%s", (_, visits, ways, revisions, forked) => {
    const found = taken(...visits);
    expect(found.ways).toEqual(ways);
    expect(found.kept.revisions).toHaveLength(revisions);
    expect(found.kept.forked).toBe(forked);
  });

  test("what stands is first, and the row is its own", () => {
    const { kept } = taken(EARLY, LATE, WHOLE);
    expect(kept.revisions.map(({ entries, number }) => [entries, number])).toEqual([
      [LATE.entries.length, 2],
      [WHOLE.entries.length, 3],
      [EARLY.entries.length, 1],
    ]);
    expect(kept.row).toMatchObject({ entries: LATE.entries.length, reviewedBy: "R. T." });
    expect(kept.followUps).toMatchObject([{ short: "Order gasket" }]);
    expect(kept.day).toBe("2026-11-25");
  });

  test("whatever the order, the same stands and nothing is lost", () =>
    fc.assert(
      fc.property(fc.shuffledSubarray([EARLY, WHOLE, LATE, OTHER, LATE], { minLength: 1 }), (visits) => {
        const { kept, known } = taken(...visits);
        const { standing, superseded, forked } = revisionsOf(visits);
        expect(kept.row.entries).toBe(standing.entries.length);
        expect(kept.forked).toBe(forked);
        const [first] = kept.revisions;
        const text = known.find(({ number }) => number === first?.number)?.text;
        expect(text).toBe(lineOf(standing));
        expect(known).toHaveLength(1 + superseded.length);
        expect(new Set(known.map((each) => each.text))).toEqual(
          new Set([standing, ...superseded].map(lineOf)),
        );
      }),
    ));
});

test("judged anew from what is kept, it is the same again, whatever was there of it", () => {
  const { known, kept } = taken(EARLY, LATE, OTHER);
  const worn = known.map((each) => ({
    ...each,
    row: { ...each.row, open: 99, title: "worn" },
    followUps: [],
  }));
  expect(judgedAnew(worn, visitOf)).toEqual({ kept, revisions: known });
});

test("what was found of a log stays with its text, and is nothing where an older program kept the text", () => {
  const altered: LogFound = { verdict: "altered", key: null };
  const { added, kept } = merge([], exportOf(WHOLE, altered, "", ""), visitOf);
  expect(kept).toMatchObject({ log: altered, revisions: [{ log: "altered" }] });
  if (!added) throw new Error("Nothing was kept.");
  expect(judgedAnew([added], visitOf).kept).toEqual(kept);
  const { log: _, ...old } = added;
  expect(judgedAnew([old as Revision], visitOf).kept.log).toEqual(NOTHING_FOUND);
});

test("a kept text has what the log is checked by", () => {
  const integrity = { links: ["A".repeat(43)], signatures: ["a.b.c"] };
  expect(visitOf(lineOf({ ...WHOLE, integrity }))).toEqual({ ...WHOLE, integrity });
});

test("a kept text is the bundle, on one line", () => {
  const text = lineOf(WHOLE);
  expect(text).not.toContain("\n");
  const read = importVisit(text);
  expect(read).toEqual({ ok: true, visit: WHOLE });
});

test("one that was kept before there was a licence is the same as its export of today", () => {
  const old = JSON.stringify(JSON.parse(readFileSync("tests/record/old/before-licence.visit.json", "utf8")));
  const visit = visitOf(old);
  const known = [{ ...exportOf(visit, NOTHING_FOUND, "", "", old), visitId: visit.head.id, number: 1 }];
  expect(lineOf(visit)).not.toBe(old);
  expect(merge(known, exportOf(visit, NOTHING_FOUND, "", ""), visitOf)).toEqual({
    as: "same",
    kept: null,
    added: null,
  });
  expect(judgedAnew(known, visitOf).revisions).toMatchObject([{ number: 1, text: lineOf(visit) }]);
});

test("a kept text that cannot be read changes nothing", () => {
  const broken = () => {
    throw new Error("damaged");
  };
  const { known } = taken(EARLY);
  expect(() => merge(known, exportOf(WHOLE, NOTHING_FOUND, "", ""), broken)).toThrow("damaged");
});
