import { mkdirSync } from "node:fs";
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
    [2, 3, 4].map((number) => ({ ...officeRow(inventedVisit(number, 30)), revisions: 1, forked: false })),
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
