import fc from "fast-check";
import { describe, expect, test } from "vitest";
import { exportVisit, importVisit, visitFrom } from "../../src/record/bundle.ts";
import { exportOf, merge, type Revision } from "../../src/record/office/kept.ts";
import { NOTHING_FOUND } from "../../src/record/office/log-found.ts";
import { relationOf, revisionsOf } from "../../src/record/office/revision.ts";
import type { Entry } from "../../src/visit/entry.ts";
import { foldVisit, step, withEntries } from "../../src/visit/fold.ts";
import { isItemBody } from "../../src/visit/item-body.ts";
import type { VisitState } from "../../src/visit/state.ts";
import type { Visit } from "../../src/visit/visit.ts";
import { anyVisit as anyBundle } from "../record/arbitrary.ts";
import { anyScript } from "../support/arbitrary.ts";
import { andThen, upTo } from "../support/office.ts";
import { play } from "../support/visits.ts";

/** As the app makes them from what is said, and with entries of every kind that point anywhere back. */
const anyVisit: fc.Arbitrary<Visit> = fc.oneof(
  anyBundle,
  anyScript.map((script) => play(script).visit),
);

/** Numbers to draw places with. */
const anyPlaces = fc.array(fc.nat(), { maxLength: 12 });

/** The same state, worked out from nothing: what is known of a visit object is not used. */
const fresh = (visit: Visit): VisitState => foldVisit({ ...visit });

/** With some entries given again, each anywhere behind its place. */
function repeated({ entries, ...visit }: Visit, places: readonly number[]): Visit {
  const log = [...entries];
  places.forEach((draw, turn) => {
    const again = entries[draw % entries.length];
    if (!again) return;
    const first = log.findIndex(({ id }) => id === again.id);
    const at = first + 1 + ((draw + 7 * turn) % (log.length - first));
    log.splice(at, 0, structuredClone(again));
  });
  return { ...visit, entries: log };
}

describe("an entry counts once, however often it is given", () => {
  test("in a log", () => {
    fc.assert(
      fc.property(anyVisit, anyPlaces, (visit, places) => {
        expect(fresh(repeated(visit, places))).toEqual(fresh(visit));
      }),
    );
  });

  test("in stretches that overlap, in any order, as long as none leaves a gap", () => {
    fc.assert(
      fc.property(anyVisit, anyPlaces, (visit, places) => {
        const { entries } = visit;
        let longer: Visit = { ...visit, entries: [] };
        for (const draw of [...places, entries.length]) {
          const to = draw % (entries.length + 1);
          const from = Math.min(to, longer.entries.length, draw % 5);
          longer = withEntries(longer, structuredClone(entries.slice(from, to)));
        }
        longer = withEntries(longer, entries);
        expect(longer.entries).toEqual(entries);
        expect(foldVisit(longer)).toEqual(fresh(visit));
      }),
    );
  });

  test("another entry at the same place is another entry, and is not lost", () => {
    fc.assert(
      fc.property(anyBundle, fc.nat(), (visit, draw) => {
        const twin = visit.entries[draw % visit.entries.length];
        if (!twin) return;
        const other: Entry = { ...twin, id: "another", body: { kind: "note", text: "another" } };
        const state = fresh({ ...visit, entries: [...visit.entries, other] });
        expect(state.items.map(({ id }) => id)).toContain("another");
        expect(foldVisit(withEntries(visit, [other]))).toEqual(state);
      }),
    );
  });
});

describe("folded in whatever steps, the same state", () => {
  test("any prefix, and the rest one by one", () => {
    fc.assert(
      fc.property(anyVisit, fc.nat(), (visit, draw) => {
        const at = draw % (visit.entries.length + 1);
        const prefix = fresh(upTo(visit, at));
        expect(visit.entries.slice(at).reduce(step, prefix)).toEqual(fresh(visit));
      }),
    );
  });

  test("in stretches of any length", () => {
    fc.assert(
      fc.property(anyVisit, anyPlaces, (visit, places) => {
        let longer: Visit = { ...visit, entries: [] };
        for (const draw of places) {
          const at = longer.entries.length;
          longer = withEntries(longer, visit.entries.slice(at, at + (draw % 4)));
        }
        longer = withEntries(longer, visit.entries.slice(longer.entries.length));
        expect(foldVisit(longer)).toEqual(fresh(visit));
      }),
    );
  });
});

describe("the old is never lost", () => {
  test("each entry leaves all that was there where it was, or in its history", () => {
    fc.assert(
      fc.property(anyVisit, (visit) => {
        let state = fresh(upTo(visit, 0));
        for (const entry of visit.entries) {
          const next = step(state, entry);
          for (const { id, body, history } of state.items) {
            const now = next.items.find((item) => item.id === id);
            expect([...(now?.history ?? []), now?.body]).toEqual(expect.arrayContaining([...history, body]));
          }
          expect(next.unsure.map(({ settled, ...thing }) => thing)).toEqual(
            expect.arrayContaining(state.unsure.map(({ settled, ...thing }) => thing)),
          );
          expect(next.nextSeq).toBe(state.nextSeq + 1);
          state = next;
        }
      }),
    );
  });

  test("every item that was ever logged, and whatever replaced one, is found again; so is all that was not understood", () => {
    fc.assert(
      fc.property(anyVisit, (visit) => {
        const { items, unsure } = fresh(visit);
        const bodies = new Map(items.map(({ id, history, body }) => [id, [...history, body]]));
        for (const { id, body } of visit.entries) {
          if (isItemBody(body)) expect(bodies.get(id)).toContainEqual(body);
          if (body.kind === "unsure")
            expect(unsure).toContainEqual(expect.objectContaining({ id, unsure: body.unsure }));
          if (body.kind === "replace" && bodies.has(body.target))
            expect(bodies.get(body.target)).toContainEqual(body.with);
        }
      }),
    );
  });

  test("what is struck says by whom and stays; striking that strike, or striking again, changes nothing", () => {
    fc.assert(
      fc.property(anyVisit, fc.nat(), (visit, draw) => {
        const standing = fresh(visit).items.filter(({ struckBy }) => struckBy === null);
        const target = standing[draw % standing.length];
        if (!target) return;
        const struck = andThen(visit, { kind: "strike", target: target.id });
        const by = struck.entries.at(-1)?.id ?? "";
        const after = foldVisit(struck).items;
        expect(after).toEqual(
          fresh(visit).items.map((item) => (item.id === target.id ? { ...target, struckBy: by } : item)),
        );
        const again = andThen(andThen(struck, { kind: "strike", target: by }), {
          kind: "strike",
          target: target.id,
        });
        expect(foldVisit(again).items).toEqual(after);
        const back = andThen(again, { kind: "replace", target: target.id, with: target.body });
        expect(foldVisit(back).items).toEqual(fresh(visit).items);
      }),
    );
  });
});

/** As a file, and read again. */
function sent(visit: Visit): Visit {
  const read = importVisit(exportVisit(visit));
  if (!read.ok) throw new Error("no visit");
  return read.visit;
}

function visitOf(text: string): Visit {
  const read = visitFrom(JSON.parse(text));
  if (!read.ok) throw new Error("no visit");
  return read.visit;
}

/** Exports of a visit as it went on, some of them several times, in any order; the last of all among them. */
function exportsOf(visit: Visit, places: readonly number[]): Visit[] {
  const lengths = [...places.map((draw) => draw % (visit.entries.length + 1)), visit.entries.length];
  const at = (places[0] ?? 0) % lengths.length;
  return [...lengths.slice(at), ...lengths.slice(0, at)].map((length) => sent(upTo(visit, length)));
}

/** What the office keeps of exports that came one after the other. */
function keptOf(exports: readonly Visit[]) {
  let known: Revision[] = [];
  let kept: ReturnType<typeof merge>["kept"] = null;
  for (const visit of exports) {
    const merged = merge(
      known,
      exportOf(visit, NOTHING_FOUND, "x.json", "2026-11-26T08:00:00.000Z"),
      visitOf,
    );
    if (merged.added) known = [...known, merged.added];
    kept = merged.kept ?? kept;
  }
  return { known, kept };
}

describe("re-imports of one visit, in any order and any number of times", () => {
  const runs = { numRuns: 40 };

  test("end in the same visit and the same state", () => {
    fc.assert(
      fc.property(anyVisit, anyPlaces, (visit, places) => {
        const { standing, forked } = revisionsOf(exportsOf(visit, places));
        expect(forked).toBe(false);
        expect(standing).toEqual(sent(visit));
        expect(foldVisit(standing)).toEqual(fresh(visit));
      }),
      runs,
    );
  });

  test("each taken in twice changes nothing more", () => {
    fc.assert(
      fc.property(anyVisit, anyPlaces, (visit, places) => {
        const exports = exportsOf(visit, places);
        const { kept, known } = keptOf(exports);
        const twice = keptOf([...exports, ...[...exports].reverse()]);
        expect(twice).toEqual({ kept, known });
        expect(kept?.row.entries).toBe(visit.entries.length);
        expect(kept?.forked).toBe(false);
      }),
      runs,
    );
  });

  test("the same stands whatever order they came in, and no entry of any is lost where they part", () => {
    fc.assert(
      fc.property(anyVisit, anyPlaces, fc.nat(), (visit, places, draw) => {
        const parted = andThen(upTo(visit, draw % (visit.entries.length + 1)), {
          kind: "note",
          text: "elsewhere",
        });
        const exports = [...exportsOf(visit, places), sent(parted)];
        const [one, other] = [keptOf(exports), keptOf([...exports].reverse())];
        expect(other.kept?.row).toEqual(one.kept?.row);
        expect(other.kept?.forked).toBe(one.kept?.forked);
        const texts = (known: readonly Revision[]) => known.map(({ text }) => text).sort();
        expect(texts(other.known)).toEqual(texts(one.known));
        const kept = one.known.map(({ text }) => visitOf(text));
        for (const came of exports) expect(kept.some((each) => relationOf(came, each) === "same")).toBe(true);
      }),
      runs,
    );
  });
});
