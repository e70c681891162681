import fc from "fast-check";
import { describe, expect, test } from "vitest";
import { relationOf, revisionsOf } from "../../../src/record/office/revision.ts";
import type { Visit } from "../../../src/visit/visit.ts";
import { andThen, officeVisit, upTo } from "../../support/office.ts";
import { co, co2 } from "../../support/visits.ts";

const whole = officeVisit("a", [
  [10, co2(9.2, "high")],
  [20, co(40, "high")],
  [30, co2(8.9, "low")],
]);
const begun = upTo(whole, 2);
const longer = andThen(whole, { kind: "note", text: "gasket worn" });
const other = andThen(whole, { kind: "note", text: "gasket sound" }, 120);
const renamed: Visit = { ...whole, head: { ...whole.head, title: "Another title" } };
const altered: Visit = {
  ...whole,
  entries: whole.entries.map((entry, i) => (i === 1 ? { ...entry, said: "CO fourteen" } : entry)),
};

/** With so many links and signatures: what they are worth is looked at elsewhere. */
const checkedBy = (visit: Visit, ...signatures: string[]): Visit => ({
  ...visit,
  integrity: { links: visit.entries.map(() => "A".repeat(43)), signatures },
});
const linked = checkedBy(whole);
const signed = checkedBy(whole, "a.b.c");
const signedTwice = checkedBy(whole, "a.b.c", "d.e.f");

describe("how an export stands to the one that is kept", () => {
  test.each([
    ["the same file again", whole, whole, "same"],
    ["an equal visit read anew", structuredClone(whole), whole, "same"],
    ["entries were added", longer, whole, "newer"],
    ["only a stretch of it", begun, whole, "older"],
    ["it went on in two ways", longer, other, "forked"],
    ["its head was changed", renamed, whole, "forked"],
    ["an old entry was changed", altered, whole, "forked"],
    [
      "an old entry was changed and it went on",
      andThen(altered, { kind: "note", text: "x" }),
      whole,
      "forked",
    ],
    ["it was linked since", linked, whole, "newer"],
    ["it was signed since", signed, linked, "newer"],
    ["it was signed since, and neither linked before", signed, whole, "newer"],
    ["it was not signed yet", whole, signed, "older"],
    ["it was signed once more", signedTwice, signed, "newer"],
    ["the same signature", structuredClone(signed), signed, "same"],
    ["it goes on, unsigned", longer, signed, "newer"],
    ["a visit without entries, before it had any", whole, upTo(whole, 0), "newer"],
  ])("%s", (_, incoming, kept, relation) => {
    expect(relationOf(incoming, kept)).toBe(relation);
  });
});

describe("what stands of several exports", () => {
  const ALL = [begun, whole, longer, other, structuredClone(begun)];

  test.each([
    ["one alone", [whole], whole, 0, false],
    ["the same twice is one", [whole, structuredClone(whole)], whole, 0, false],
    ["the longer supersedes", [begun, whole], whole, 1, false],
    ["in whatever order", [whole, begun], whole, 1, false],
    ["of two ways the one with the later last entry", [longer, other], other, 1, true],
    ["all of them", ALL, other, 3, true],
  ])("%s", (_, exports, standing, superseded, forked) => {
    const found = revisionsOf(exports);
    expect(found.standing.entries).toEqual(standing.entries);
    expect(found.superseded).toHaveLength(superseded);
    expect(found.forked).toBe(forked);
  });

  test("of the same entries the signed one, whichever came first, and the other is kept", () => {
    fc.assert(
      fc.property(
        fc.shuffledSubarray([whole, linked, signed, checkedBy(whole, "x.y.z")], { minLength: 4 }),
        (exports) => {
          const { standing, superseded, forked } = revisionsOf(exports);
          expect([standing.integrity?.signatures, superseded.length, forked]).toEqual([["x.y.z"], 3, false]);
        },
      ),
    );
  });

  test("never hangs on the order in which they came", () => {
    const order = fc.shuffledSubarray(ALL, { minLength: ALL.length });
    fc.assert(
      fc.property(order, (exports) => {
        const { standing, superseded, forked } = revisionsOf(exports);
        const known = revisionsOf(ALL);
        expect(standing.entries).toEqual(known.standing.entries);
        expect(superseded.map(({ entries }) => entries)).toEqual(
          known.superseded.map(({ entries }) => entries),
        );
        expect(forked).toBe(true);
      }),
    );
  });

  test("none is a fault of the caller", () => {
    expect(() => revisionsOf([])).toThrow(RangeError);
  });
});
