import { createHash } from "node:crypto";
import { readdirSync, readFileSync } from "node:fs";
import fc from "fast-check";
import { beforeAll, describe, expect, test } from "vitest";
import { type Book, openBook } from "../../../src/cli/office/book.ts";
import { judgeAnew, staleVisits } from "../../../src/cli/office/judge-anew.ts";
import { type Judges, startJudges } from "../../../src/cli/office/judges.ts";
import { type Loaded, load as loadInto } from "../../../src/cli/office/load.ts";
import { driftOf, followUpsUntil, visitsSince } from "../../../src/cli/office/queries.ts";
import { DERIVED } from "../../../src/cli/office/tables.ts";
import { makeDeviceKey } from "../../../src/device/signing/signatures.ts";
import { exportVisit, importVisit } from "../../../src/record/bundle.ts";
import { historyOf } from "../../../src/record/office/drift.ts";
import { revisionsOf } from "../../../src/record/office/revision.ts";
import { officeRow } from "../../../src/record/office/row.ts";
import { decodeText } from "../../../src/record/utf8.ts";
import { NO_DETAILS } from "../../../src/visit/details.ts";
import type { Visit } from "../../../src/visit/visit.ts";
import { signedVisit } from "../../support/cryptography.ts";
import { inventedVisit } from "../../support/invented-visits.ts";
import { andThen } from "../../support/office.ts";
import { TEST_ENGINES, targetOf } from "../../support/office-engines.ts";

const ALL = [...DERIVED, "revisions", "files"] as const;
const NOW = "2026-11-26T12:00:00.000Z";

/** A visit with some of its entries, and what was logged instead of the rest. */
const cut = (visit: Visit, entries: number): Visit => ({
  ...visit,
  entries: visit.entries.slice(0, entries),
});
const forkOf = (visit: Visit, from: number, seconds: number): Visit => ({
  ...visit,
  entries: visit.entries.slice(0, from + 1).map((entry, place) =>
    place < from
      ? entry
      : {
          ...entry,
          id: `other-${place}`,
          at: new Date(Date.parse(entry.at) + seconds * 1000).toISOString(),
        },
  ),
});

async function all<T>(items: AsyncIterable<T>): Promise<T[]> {
  const found: T[] = [];
  for await (const item of items) found.push(item);
  return found;
}

/** What the list says of a log that nobody signed. */
const UNSIGNED = { integrity: "unsigned", signedBy: null };

const V = inventedVisit(7, 40);
const W = inventedVisit(8, 40);

describe.each(TEST_ENGINES)("$name", (engine) => {
  engine.prepare();
  let judges: Judges;
  let opened: Book;
  beforeAll(async () => {
    judges = startJudges(1);
    opened = await openBook(targetOf(await engine.fresh()), "write");
    return async () => {
      await judges.close();
      await opened.close();
    };
  }, 60_000);

  /** Loads lines of JSON into a book, one batch; what was refused. */
  async function loadLines(book: Book, lines: readonly string[]): Promise<Loaded & { refused: string[] }> {
    const refused: string[] = [];
    const loaded = await loadInto(judges, book, {
      paths: ["-"],
      stdin: (async function* () {
        for (const line of lines) yield Buffer.from(`${line}\n`);
      })(),
      batch: 5000,
      now: () => NOW,
      refused: (sentence) => refused.push(sentence),
      progress: () => {},
      stopped: () => false,
    });
    return { ...loaded, refused };
  }
  const load = (book: Book, ...visits: Visit[]) =>
    loadLines(
      book,
      visits.map((visit) => JSON.stringify(visit)),
    );

  /** The book, emptied: opening one takes longer than most tests. */
  async function withBook<T>(use: (book: Book) => Promise<T>): Promise<T> {
    for (const table of ALL) await opened.db.deleteFrom(table).execute();
    return use(opened);
  }

  /** All that is made from what stands, and which revisions are kept: what must not hang on the order of loading. */
  async function contents(book: Book): Promise<object> {
    const tables: Record<string, unknown[]> = {};
    for (const table of DERIVED) {
      const rows = await book.db.selectFrom(table).selectAll().execute();
      tables[table] = rows.map((row) => JSON.stringify(row)).sort();
    }
    const kept = await book.db.selectFrom("revisions").select(["visit_id", "digest", "bundle"]).execute();
    return { ...tables, revisions: kept.map((row) => JSON.stringify(row)).sort() };
  }
  const listed = async (book: Book, since: string | null = null) => all(visitsSince(book.db, since));

  test("the same bundle twice is one visit, in whatever file", () =>
    withBook(async (book) => {
      expect(await load(book, V, W)).toMatchObject({
        visits: 2,
        revisions: 0,
        same: 0,
        skipped: 0,
        bad: 0,
        entries: 80,
      });
      const before = await contents(book);
      expect(await load(book, V, W)).toMatchObject({ visits: 0, skipped: 2, entries: 0 });
      expect(await loadLines(book, [exportVisit(V).replaceAll("\n", " ")])).toMatchObject({
        visits: 0,
        same: 1,
        skipped: 0,
      });
      expect(await contents(book)).toEqual(before);
    }));

  test("what an older program has judged is judged anew from the revision that stands, and nothing else is touched", () =>
    withBook(async (book) => {
      await load(book, V, W);
      await load(book, cut(V, 12), forkOf(W, 3, 60));
      const before = await contents(book);
      const [{ id } = { id: "" }] = await listed(book);
      expect(await staleVisits(book)).toBe(0);
      await book.db.updateTable("visits").set({ judged: 0, open: 99 }).where("visit_id", "=", id).execute();
      await book.db.deleteFrom("readings").where("visit_id", "=", id).execute();
      expect(await staleVisits(book)).toBe(1);
      const anew = (stopped: boolean) =>
        judgeAnew(
          book,
          () => NOW,
          () => stopped,
        );
      expect(await anew(true)).toBe(0);
      expect(await anew(false)).toBe(1);
      expect(await staleVisits(book)).toBe(0);
      expect(await contents(book)).toEqual(before);
    }));

  test("a visit stands in the list as the office page has it", () =>
    withBook(async (book) => {
      await load(book, V, W);
      const rows = await listed(book);
      const expected = [V, W].map((visit) => ({
        ...officeRow(visit),
        revisions: 1,
        forked: false,
        ...UNSIGNED,
      }));
      expect(rows).toEqual(expected.sort((a, b) => (a.startedAt < b.startedAt ? -1 : 1)));
    }));

  describe("revisions", () => {
    const long = V;
    const short = cut(V, 25);
    const forked = forkOf(V, 30, 0);
    const forkedLater = forkOf(V, 30, 100_000);
    const cases: [string, Visit[]][] = [
      ["a longer one supersedes", [short, long]],
      ["a shorter one that comes later is kept", [long, short]],
      ["of two that part the later one stands", [long, forkedLater]],
      ["and the other one where it is later", [forkedLater, long]],
      ["a shorter fork", [long, forked]],
      ["three", [short, forked, long]],
      ["two that part, then one that goes on from the first", [cut(V, 35), forkedLater, long]],
    ];
    test.each(cases)("%s", (_name, visits) =>
      withBook(async (book) => {
        const { standing, forked, superseded } = revisionsOf(visits);
        for (const visit of visits) await load(book, visit);
        expect(await listed(book)).toEqual([
          { ...officeRow(standing), revisions: superseded.length + 1, forked, ...UNSIGNED },
        ]);
        const entries = await book.db.selectFrom("entries").select("entry_id").orderBy("seq").execute();
        expect(entries.map(({ entry_id }) => entry_id)).toEqual(standing.entries.map(({ id }) => id));
        const kept = await book.db.selectFrom("revisions").select("bundle").execute();
        expect(kept.map(({ bundle }) => JSON.parse(bundle))).toEqual(expect.arrayContaining(visits));
      }),
    );

    test("one that the book has from before there was a licence is the same as its export of today", () =>
      withBook(async (book) => {
        const old = readFileSync("tests/record/old/before-licence.visit.json", "utf8");
        const read = importVisit(old);
        if (!read.ok) throw new Error("The old fixture cannot be read.");
        await load(book, read.visit);
        // As the program of then left it.
        const bundle = JSON.stringify(JSON.parse(old));
        const digest = createHash("sha256").update(bundle).digest("hex");
        await book.db.updateTable("revisions").set({ bundle, digest }).execute();
        await book.db.updateTable("visits").set({ revision: digest }).execute();
        const before = await contents(book);
        expect(await loadLines(book, [exportVisit(read.visit).replaceAll("\n", " ")])).toMatchObject({
          visits: 0,
          revisions: 0,
          same: 1,
        });
        expect(await contents(book)).toEqual(before);
        // A shorter one does not move what stands either, a longer one does.
        expect(await load(book, cut(read.visit, 8))).toMatchObject({ revisions: 1 });
        expect(await book.db.selectFrom("visits").select(["revision", "revisions"]).execute()).toEqual([
          { revision: digest, revisions: 2 },
        ]);
        const longer = andThen(read.visit, { kind: "reviewed", by: "M. Office" });
        expect(await load(book, longer)).toMatchObject({ revisions: 1 });
        expect(await listed(book)).toEqual([
          { ...officeRow(longer), revisions: 3, forked: false, ...UNSIGNED },
        ]);
      }));

    test("a signed one supersedes the same unsigned, whichever comes first, and says who signed", async () => {
      const key = await makeDeviceKey();
      const signed = await signedVisit(short, { key, entries: short.entries.length });
      for (const visits of [
        [short, signed],
        [signed, short],
      ])
        await withBook(async (book) => {
          for (const visit of visits) await load(book, visit);
          expect(await listed(book)).toMatchObject([
            { revisions: 2, forked: false, integrity: "whole", signedBy: key.thumbprint },
          ]);
          // What goes on from it without its links is not signed, and that is seen.
          await load(book, long);
          expect(await listed(book)).toMatchObject([{ revisions: 3, ...UNSIGNED }]);
        });
    });

    test("an altered one is so in the list, and once it is judged anew", () =>
      withBook(async (book) => {
        const { integrity } = await signedVisit(short);
        await load(book, { ...long, integrity });
        expect(await listed(book)).toMatchObject([{ integrity: "altered", signedBy: null }]);
        await book.db.updateTable("visits").set({ judged: 0, integrity: "unsigned" }).execute();
        await judgeAnew(
          book,
          () => NOW,
          () => false,
        );
        expect(await listed(book)).toMatchObject([{ integrity: "altered", signedBy: null }]);
      }));

    test("what is in the book does not hang on the order, nor on how it was cut into batches", async () => {
      const exports = [short, long, forked, forkedLater, W, cut(W, 39), cut(V, 35)];
      const plain = await withBook(async (book) => {
        await load(book, ...exports);
        return contents(book);
      });
      await fc.assert(
        fc.asyncProperty(
          fc.shuffledSubarray(exports, { minLength: exports.length }),
          fc.array(fc.nat(exports.length), { maxLength: 3 }),
          async (order, cuts) => {
            const places = [...new Set([0, ...cuts, order.length])].sort((a, b) => a - b);
            const contentsNow = await withBook(async (book) => {
              for (const [i, from] of places.entries()) {
                const batch = order.slice(from, places[i + 1]);
                if (batch.length > 0) await load(book, ...batch);
              }
              return contents(book);
            });
            expect(contentsNow).toEqual(plain);
          },
        ),
        { numRuns: 6 },
      );
    });
  });

  test("bad lines are told in a sentence each, and the others are loaded", () =>
    withBook(async (book) => {
      const { bad, visits, refused } = await loadLines(book, [
        JSON.stringify(V),
        "{",
        "",
        JSON.stringify({ ...W, format: "burnerside-visit/9" }),
        JSON.stringify({ ...W, entries: [...W.entries, W.entries[0]] }),
        JSON.stringify(W),
      ]);
      expect({ bad, visits }).toEqual({ bad: 3, visits: 2 });
      expect(refused).toEqual([
        'standard input:2: Line 1, column 2: expected a field name in quotes ("…"), found the end of the file.',
        'standard input:4: format: Expected version "burnerside-visit/1" of the visit bundle, the only one that this program reads, found "burnerside-visit/9".',
        `standard input:5: entries[40].id: Expected an id of its own, found ${JSON.stringify(W.entries[0]?.id)} of entries[0], and one more problem.`,
      ]);
    }));

  test("what PostgreSQL cannot hold in a text is replaced in the tables and kept in the bundle", () =>
    withBook(async (book) => {
      const title = `nul \0, half a pair \ud800, a whole one 😀, "quotes" and \\u0000`;
      const hostile = { ...V, head: { ...V.head, title } };
      expect(await load(book, hostile)).toMatchObject({ visits: 1, bad: 0 });
      expect((await listed(book))[0]?.title).toBe(
        `nul \uFFFD, half a pair \uFFFD, a whole one 😀, "quotes" and \\u0000`,
      );
      const [kept] = await book.db.selectFrom("revisions").select("bundle").execute();
      expect(JSON.parse(kept?.bundle ?? "").head.title).toBe(title);
    }));

  test("a bundle that the database refuses is told, and keeps none of its batch out", () =>
    withBook(async (book) => {
      const noYear = { ...W, head: { ...W.head, startedAt: "0000-01-01T00:00:00Z" } };
      const { bad, visits, refused } = await load(book, V, noYear, inventedVisit(10, 5));
      expect(refused).toEqual([
        expect.stringMatching(
          /^standard input:2: Expected a bundle that the database can hold, found one that it /,
        ),
      ]);
      expect({ bad, visits }).toEqual({ bad: 1, visits: 2 });
      expect((await listed(book)).length).toBe(2);
    }));

  test("visits since a day, in the day of their place", () =>
    withBook(async (book) => {
      const at = (startedAt: string, id: string, zone: string | null): Visit => ({
        ...cut(V, 1),
        head: { ...V.head, id, startedAt, zone },
      });
      await load(
        book,
        at("2026-11-24T23:30:00Z", "vienna", "Europe/Vienna"),
        at("2026-11-24T23:30:00Z", "utc", null),
        at("2026-11-25T03:30:00Z", "new-york", "America/New_York"),
        at("2026-11-25T00:00:00+01:00", "offset", null),
        at("2026-11-25T12:00:00Z", "nowhere", "No/Where"),
      );
      const since = async (day: string) => (await listed(book, day)).map(({ id }) => id);
      expect(await since("2026-11-25")).toEqual(["nowhere", "vienna"]);
      expect(await since("2026-11-24")).toEqual(["new-york", "offset", "utc", "nowhere", "vienna"]);
      expect(await since("2026-11-26")).toEqual([]);
    }));

  test("drift of an appliance, however its number is written, as the office page has it", () =>
    withBook(async (book) => {
      const visits = [3, 0, 4, 1, 2].map((number) => inventedVisit(number));
      await load(book, ...visits, inventedVisit(5));
      const history = await driftOf(book.db, " inv00000 ");
      expect(history).toEqual(historyOf(visits.map(officeRow)));
      // What the numbers mean is tested with the rule itself; here they must be there.
      expect(history?.points.map(({ visitId }) => visitId)).toEqual(
        [0, 1, 2, 3, 4].map((n) => `invented-${n}`),
      );
      expect(history?.points.at(-1)?.left.high.co2?.value).toBeGreaterThan(8);
      expect(history?.points.at(-1)?.drift.high.co2).not.toBeNull();
      expect(await driftOf(book.db, "INV 99999")).toBeNull();
      expect(await driftOf(book.db, "  ")).toBeNull();
    }));

  describe("follow-ups", () => {
    /** A visit of notes alone, on a Wednesday. */
    const noted = (id: string, ...notes: string[]): Visit => ({
      format: "burnerside-visit/1",
      head: { ...V.head, id, startedAt: "2026-11-25T09:00:00.000Z", zone: "Europe/Vienna" },
      entries: notes.map((text, seq) => ({
        id: `${id}-${seq}`,
        seq,
        at: `2026-11-25T09:0${seq}:00.000Z`,
        engine: "typed",
        phrase: text,
        said: text,
        confidence: 1,
        body: { kind: "note", text },
      })),
    });
    const dues = async (book: Book, until: string | null) =>
      (await all(followUpsUntil(book.db, until))).map(({ due, action, thing }) => [due, action, thing]);

    test("by the day they are due, those without a day last; what was done is none", () =>
      withBook(async (book) => {
        await load(
          book,
          noted("a", "order an ignition electrode", "replace the condensate trap gasket in two weeks"),
          noted("b", "cleaned the burner", "call the caretaker tomorrow"),
        );
        expect(await dues(book, null)).toEqual([
          ["2026-11-26", "call", null],
          ["2026-12-09", "replace", "condensate trap gasket"],
          [null, "order", "ignition electrode"],
        ]);
        expect(await dues(book, "2026-12-09")).toHaveLength(2);
        expect(await dues(book, "2026-12-08")).toHaveLength(1);
        expect(await dues(book, "2026-11-25")).toEqual([]);
        const [first] = await all(followUpsUntil(book.db, null));
        expect(first).toMatchObject({
          visitId: "b",
          note: "call the caretaker tomorrow",
          dueSaid: "tomorrow",
          by: "words",
        });
      }));

    test("a later visit to the appliance is told, the last of them, and closes nothing", () =>
      withBook(async (book) => {
        const at = (id: string, startedAt: string, appliance: string, ...notes: string[]): Visit => {
          const visit = noted(id, ...notes);
          const moved = { ...visit, head: { ...visit.head, startedAt } };
          return andThen(moved, { kind: "details", details: { ...NO_DETAILS, appliance } });
        };
        const since = async () =>
          (await all(followUpsUntil(book.db, null))).map(({ visitId, visitedSince }) => [
            visitId,
            visitedSince,
          ]);
        await load(
          book,
          at("a", "2026-11-25T09:00:00Z", "B-17", "order a gasket"),
          at("b", "2026-11-25T09:00:00Z", "", "order a fan"),
          at("c", "2026-11-25T08:59:00Z", "b-17"),
          at("d", "2026-11-27T09:00:00Z", "B-18", "order a siphon"),
          at("e", "2026-11-28T09:00:00Z", ""),
        );
        expect(await since()).toEqual([
          ["a", null],
          ["b", null],
          ["d", null],
        ]);
        await load(book, at("f", "2026-12-01T23:30:00Z", "b - 17"), at("g", "2026-11-30T09:00:00Z", "B-17"));
        // In the day of its place: half past midnight in Vienna.
        expect(await since()).toEqual([
          ["a", "2026-12-02"],
          ["b", null],
          ["d", null],
        ]);
      }));

    test("more than one page of them", () =>
      withBook(async (book) => {
        const many = Array.from({ length: 401 }, (_, i) =>
          noted(`visit-${i}`, "order a gasket", "order a fan", "replace the trap in two weeks"),
        );
        await load(book, ...many);
        expect(await dues(book, null)).toHaveLength(1203);
        expect(await dues(book, "2026-12-31")).toHaveLength(401);
        expect(await listed(book)).toHaveLength(401);
      }));
  });

  test("the demo's bundles load, and its awkward files change nothing", () =>
    withBook(async (book) => {
      const lines = (folder: string) =>
        readdirSync(folder)
          .filter((name) => name.endsWith(".json"))
          .map((name) => `${folder}/${name}`);
      const refused: string[] = [];
      const loaded = await loadInto(judges, book, {
        paths: [...lines("demo-data/visits"), ...lines("demo-data/awkward")],
        stdin: (async function* () {})(),
        batch: 5000,
        now: () => NOW,
        refused: (sentence) => refused.push(sentence),
        progress: () => {},
        stopped: () => false,
      });
      const isSound = (file: string) => {
        const decoded = decodeText(readFileSync(file));
        return decoded.ok && importVisit(decoded.text).ok;
      };
      expect(loaded.bad).toBe(lines("demo-data/awkward").filter((file) => !isSound(file)).length);
      expect(loaded.bad).toBeGreaterThan(10);
      expect(new Set(refused.map((line) => line.split(":")[0])).size).toBe(loaded.bad);
      expect((await listed(book)).length).toBe(loaded.visits);
    }));
});
