import { existsSync, readdirSync, readFileSync, writeFileSync } from "node:fs";
import { join } from "node:path";
import ExcelJS from "exceljs";
import ICAL from "ical.js";
import { describe, expect, test } from "vitest";
import { exportVisit, importVisit } from "../../src/record/bundle.ts";
import { importVisits } from "../../src/record/export/bundles.ts";
import type { Visit } from "../../src/visit/visit.ts";
import { readCsvw } from "../record/export/read-csvw.ts";
import { cli } from "../support/cli.ts";
import { ALTERED, bundleIn, SIGNED } from "../support/demo-signed.ts";
import { testFolder } from "../support/folder.ts";
import { reviewVisit } from "../support/review-visit.ts";

// The verb as others use it: a process, its lines, its status, and the files that it leaves.

const { path: folder, file } = testFolder();
const DEMO = "demo-data/visits/otterfold-mill.visit.json";
const text = (path: string) => readFileSync(path, "utf8");

/** With a follow-up that has a day, and one that has none. */
const withTasks: Visit = (() => {
  const visit = reviewVisit();
  const note = visit.entries.find(({ body }) => body.kind === "note");
  if (!note) throw new Error("no note");
  const of = (value: string, due: string | null) => ({
    action: { value: "order" as const, span: null },
    thing: { value, span: null },
    due: due === null ? null : { value: due, span: null },
    who: null,
    done: false,
  });
  const body = {
    kind: "tasks" as const,
    target: note.id,
    tasks: [of("filter", "2026-12-01"), of("trap", null)],
  };
  const entry = { ...note, id: "tasks", seq: visit.entries.length, body };
  return { ...visit, entries: [...visit.entries, entry] };
})();

const other = file("other.json", exportVisit(withTasks));
const bad = file("bad.json", exportVisit(withTasks).replace("natural-gas", "coal"));

/** A place of its own for what a test writes. */
let places = 0;
const out = (name: string) => {
  places += 1;
  return join(folder, `${places}-${name}`);
};
/** What lies in the folder beyond the files given to the verb. */
const parts = () => readdirSync(folder).filter((name) => name.startsWith("."));

describe("the ending says which kind", () => {
  test(".csv: readings, with their dictionary beside them", async () => {
    const to = out("readings.csv");
    const { status, rows, err } = await cli(["export", DEMO, other, "--to", to]);
    expect([status, err]).toEqual([0, ""]);
    expect(rows).toEqual([
      { ok: true, files: [to, `${to}-metadata.json`], visits: 2, superseded: 0, skipped: 0 },
    ]);
    const read = readCsvw(readFileSync(to), text(`${to}-metadata.json`));
    const ids = new Set(read.map(({ visit_id }) => visit_id));
    expect(ids).toEqual(new Set(["otterfold-mill-1", withTasks.head.id]));
    expect(JSON.parse(text(`${to}-metadata.json`)).url).toBe(to.split("/").at(-1));
  });

  test.each(["visits", "turns", "notes"])(".csv --table %s", async (table) => {
    const to = out(`${table}.csv`);
    expect((await cli(["export", DEMO, other, "--to", to, "--table", table])).status).toBe(0);
    const read = readCsvw(readFileSync(to), text(`${to}-metadata.json`));
    expect(read.length).toBeGreaterThan(0);
    expect(new Set(read.map(({ visit_id }) => visit_id)).size).toBeGreaterThan(0);
  });

  test(".xlsx: a workbook", async () => {
    const to = out("visits.xlsx");
    expect((await cli(["export", DEMO, other, "--to", to])).status).toBe(0);
    const book = new ExcelJS.Workbook();
    await book.xlsx.readFile(to);
    expect(book.getWorksheet("Visits")?.actualRowCount).toBe(3);
    expect(book.getWorksheet("Readings")?.actualRowCount).toBeGreaterThan(10);
  });

  test(".ics: follow-ups", async () => {
    const to = out("follow-ups.ics");
    expect((await cli(["export", other, "--to", to])).status).toBe(0);
    const calendar = new ICAL.Component(ICAL.parse(text(to)));
    const summaries = ["vevent", "vtodo"].map((kind) =>
      calendar.getAllSubcomponents(kind).map((part) => part.getFirstPropertyValue("summary")),
    );
    expect(summaries).toEqual([
      ["Order filter, Otterfold mill, boiler room"],
      ["Order trap, Otterfold mill, boiler room"],
    ]);
  });

  test(".jsonl: what logs are checked by stays, and of an altered one it is told", async () => {
    const to = out("signed.jsonl");
    const { status, err } = await cli(["export", SIGNED, ALTERED, "--to", to]);
    expect(status).toBe(0);
    expect(err).toBe(
      'export: visit "altered-1": its log is altered: entry 4 (“CO2 eight point three”) is not as it was logged.\n',
    );
    const read = [...importVisits(text(to))].map(({ read }) => (read.ok ? read.visit : null));
    expect(read).toEqual([SIGNED, ALTERED].map(bundleIn));
  });

  test(".jsonl: bundles, which the verb takes again", async () => {
    const to = out("all.jsonl");
    expect((await cli(["export", DEMO, other, "--to", to])).status).toBe(0);
    const read = [...importVisits(text(to))].map(({ read }) => (read.ok ? read.visit : null));
    expect(read).toEqual(
      [DEMO, other].map((path) => {
        const each = importVisit(text(path));
        return each.ok ? each.visit : "bad";
      }),
    );
    const again = out("again.jsonl");
    expect((await cli(["export", to, "--to", again])).status).toBe(0);
    expect(text(again)).toBe(text(to));
  });
});

test("the same visit twice is one, the later revision", async () => {
  const early: Visit = { ...withTasks, entries: withTasks.entries.slice(0, 3) };
  const to = out("once.jsonl");
  const { rows } = await cli(["export", file("early.json", exportVisit(early)), other, other, "--to", to]);
  expect(rows).toMatchObject([{ visits: 1, superseded: 2 }]);
  expect([...importVisits(text(to))].map(({ read }) => read.ok && read.visit.entries.length)).toEqual([
    withTasks.entries.length,
  ]);
});

describe("where a bundle is bad", () => {
  test("all problems are told, and nothing is written", async () => {
    const lines = file(
      "lines.jsonl",
      `${JSON.stringify(withTasks)}\n{"format":"burnerside-visit/9"}\nnone\n`,
    );
    const to = out("x.csv");
    const { status, rows, err } = await cli([
      "export",
      DEMO,
      bad,
      lines,
      join(folder, "none.json"),
      "--to",
      to,
    ]);
    expect(status).toBe(1);
    expect(rows).toMatchObject([
      { file: bad, ok: false, problems: [{ path: "head.fuel" }] },
      { file: lines, line: 2, ok: false, problems: [{ path: "format" }] },
      { file: lines, line: 3, ok: false },
      { ok: false, problems: [{ message: "Expected a readable file, found none of that name." }] },
    ]);
    expect(err).toBe(
      "export: 4 of 6 bundles are bad; --skip-bad goes on without them.\nexport: Nothing was written.\n",
    );
    expect(existsSync(to)).toBe(false);
  });

  test("--skip-bad goes on with the sound ones, and says how many were left out", async () => {
    const to = out("x.jsonl");
    const { status, rows } = await cli(["export", bad, DEMO, "--to", to, "--skip-bad"]);
    expect(status).toBe(0);
    expect(rows).toMatchObject([
      { file: bad, ok: false },
      { ok: true, visits: 1, skipped: 1 },
    ]);
    expect([...importVisits(text(to))]).toHaveLength(1);
  });

  test("with none that is sound nothing is written", async () => {
    const to = out("x.csv");
    const { status, err } = await cli(["export", bad, "--to", to, "--skip-bad"]);
    expect([status, existsSync(to)]).toEqual([1, false]);
    expect(err).toContain("expected at least one sound visit bundle, found none");
  });
});

describe("what is there is left alone", () => {
  test.each(["x.csv", "x.csv-metadata.json"])("%s stays, unless --force is given", async (name) => {
    const to = out("x.csv");
    const kept = to.replace("x.csv", name);
    writeFileSync(kept, "kept");
    const { status, err } = await cli(["export", DEMO, "--to", to]);
    expect([status, text(kept)]).toEqual([1, "kept"]);
    expect(err).toBe(
      `export: ${kept} is there already; --force writes over it.\nexport: Nothing was written.\n`,
    );
    expect((await cli(["export", DEMO, "--to", to, "--force"])).status).toBe(0);
    expect(text(kept)).not.toBe("kept");
  });

  test("what cannot be written leaves nothing behind", async () => {
    const to = join(folder, "no-such-folder", "x.csv");
    const { status, err } = await cli(["export", DEMO, "--to", to]);
    expect(status).toBe(1);
    expect(err).toBe(
      `export: ${to}: expected a file that can be written, found no such folder.\nexport: Nothing was written.\n`,
    );
    expect(parts()).toEqual([]);
  });
});

test("without a follow-up no calendar is written", async () => {
  const to = out("x.ics");
  const none: Visit = { ...withTasks, entries: withTasks.entries.slice(0, 3) };
  const { status, err } = await cli(["export", file("none.json", exportVisit(none)), "--to", to]);
  expect([status, existsSync(to)]).toEqual([1, false]);
  expect(err).toBe(
    "export: Expected at least one follow-up in the notes, found none.\nexport: Nothing was written.\n",
  );
});

describe("flags", () => {
  test.each([
    [["--to", "x.csv"], "expected at least one visit bundle, found none"],
    [[DEMO], "--to: expected a file ending in .csv, .xlsx, .ics or .jsonl, found none"],
    [[DEMO, "--to", "x.pdf"], '--to: expected a file ending in .csv, .xlsx, .ics or .jsonl, found "x.pdf"'],
    [
      [DEMO, "--to", "x.csv", "--table", "rows"],
      '--table: expected visits, readings, turns or notes, found "rows"',
    ],
    [
      [DEMO, "--to", "x.ics", "--table", "turns"],
      '--table: expected with a .csv file only, found with "x.ics"',
    ],
    [[DEMO, "--into", "x.csv"], "expected export FILE…"],
  ])("%j", async (args, problem) => {
    const { status, out: printed, err } = await cli(["export", ...args]);
    expect([status, printed]).toEqual([2, ""]);
    expect(err).toContain(problem);
  });
});
