import { existsSync, mkdirSync, readFileSync } from "node:fs";
import { join } from "node:path";
import { expect, test } from "vitest";
import { officeRow } from "../../../src/record/office/row.ts";
import { cli } from "../../support/cli.ts";
import { testFolder } from "../../support/folder.ts";
import { inventedVisit } from "../../support/invented-visits.ts";

// The verb as others use it: a process, its lines, its status. What is in the book is tested in book.test.ts.

const { path: folder, file } = testFolder();

test("loads files, folders and JSON Lines into a folder, and answers from it", async () => {
  const to = join(folder, "book");
  const inside = join(folder, "in", "deeper");
  mkdirSync(inside, { recursive: true });
  const lines = [1, 2].map((number) => JSON.stringify(inventedVisit(number, 30))).join("\n");
  const single = file("one.json", JSON.stringify(inventedVisit(0, 30)));
  file("in/two.jsonl", `${lines}\n`);
  file("in/deeper/three.json", JSON.stringify(inventedVisit(3, 30)));
  file("in/deeper/letter.txt", "no bundle, and not asked for");
  const bad = file("in/bad.json", "{");

  const input = `${JSON.stringify(inventedVisit(4, 30))}\n`;
  const loaded = await cli(["office", "load", single, join(folder, "in"), "-", "--to", to], input);
  expect(loaded.status).toBe(1);
  expect(loaded.rows).toMatchObject([{ engine: "embedded", visits: 5, bad: 1, entries: 150 }]);
  expect(loaded.err).toBe(
    `office: loading into a book, embedded.\noffice: ${bad}: Line 1, column 2: expected a field name in quotes ("…"), found the end of the file.\n`,
  );

  const visits = await cli(["office", "visits", "--since", "2024-01-01", "--from", to]);
  expect({ status: visits.status, err: visits.err }).toEqual({ status: 0, err: "" });
  expect(visits.rows).toEqual(
    [2, 3, 4].map((number) => ({
      ...officeRow(inventedVisit(number, 30)),
      revisions: 1,
      forked: false,
      integrity: "unsigned",
      signedBy: null,
    })),
  );
  const drift = await cli(["office", "drift", "inv 00000", "--from", to]);
  expect(drift.rows).toMatchObject(
    [0, 1, 2, 3, 4].map((n) => ({ appliance: "INV 00000", visitId: `invented-${n}` })),
  );
  const none = await cli(["office", "drift", "nothing", "--from", to]);
  expect(none).toMatchObject({
    status: 1,
    out: "",
    err: 'office: expected an appliance that was visited, found no visit of "nothing".\n',
  });
}, 180_000);

test("where nothing is to be loaded no book is made; what is there already is said", async () => {
  const to = join(folder, "no-book");
  const nowhere = join(folder, "nowhere.json");
  const empty = join(folder, "empty");
  mkdirSync(empty);
  expect(await cli(["office", "load", nowhere, "--to", to])).toMatchObject({
    status: 1,
    out: "",
    err: `office: ${nowhere}: Expected a readable file or folder, found none of that name.\noffice: Nothing was loaded.\n`,
  });
  expect(await cli(["office", "load", empty, "--to", to])).toMatchObject({
    status: 1,
    err: `office: expected at least one visit bundle (.json, .jsonl) in "${empty}", found none.\noffice: Nothing was loaded.\n`,
  });
  expect(existsSync(to)).toBe(false);

  const bundle = file("bundle.json", JSON.stringify(inventedVisit(7, 30)));
  expect((await cli(["office", "load", bundle, "--to", to])).err).not.toContain("skipped");
  const again = await cli(["office", "load", bundle, "--to", to]);
  expect(again).toMatchObject({ status: 0, rows: [{ visits: 0, skipped: 1 }] });
  expect(again.err).toContain(
    "office: one bundle was skipped: loaded before, byte for byte, and not read again.\n",
  );

  const parquet = file("there.parquet", "kept");
  const refused = await cli(["office", "export", "--parquet", parquet, "--from", to]);
  expect(refused).toMatchObject({
    status: 1,
    out: "",
    err: `office: ${parquet} is there already; --force writes over it.\n`,
  });
  const forced = await cli(["office", "export", "--parquet", parquet, "--force", "--from", to]);
  expect(forced.status).toBe(0);
  expect(readFileSync(parquet, "latin1")).toMatch(/^PAR1/);
}, 180_000);

test("arguments that cannot be read: all problems at once, status 2", async () => {
  const { status, out, err } = await cli(["office", "visits", "x", "--since", "yesterday"]);
  expect({ status, out }).toEqual({ status: 2, out: "" });
  expect(err).toBe(
    [
      'office: expected only flags, got "x".',
      'office: --since: expected a day such as 2026-11-25, got "yesterday".',
      "office: usage: office visits [--since DAY] [--from TARGET].",
      "",
    ].join("\n"),
  );
}, 60_000);
