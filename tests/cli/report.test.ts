import { readFile, writeFile } from "node:fs/promises";
import { join } from "node:path";
import { expect, test } from "vitest";
import { z } from "zod";
import { cli } from "../support/cli.ts";
import { ALTERED, DEMO, SIGNED } from "../support/demo-signed.ts";
import { testFolder } from "../support/folder.ts";
import { readPdf } from "../support/pdf-pages.ts";

const Record = z.looseObject({
  notice: z.string(),
  sections: z.array(
    z.looseObject({
      id: z.string(),
      blocks: z.array(z.looseObject({ items: z.array(z.string()).optional() })),
    }),
  ),
});

const folder = testFolder();

test("without --to the record is one JSON object", async () => {
  const { status, rows, err } = await cli(["report", DEMO]);
  expect([status, err, rows.length]).toEqual([0, "", 1]);
  expect(rows[0]).toMatchObject({
    heading: "Visit record",
    name: "Otterfold Mill, boiler 1 (invented)",
    units: "us",
  });
});

test.each<[file: string, notice: RegExp, log: RegExp]>([
  [SIGNED, /^$/, /^Signed up to its last entry, entry 28, with key /],
  [ALTERED, /^Altered: .* Entry 4 \(“CO2 eight point three”\) is not as it was/, /^Entry 4 /],
  [DEMO, /^$/, /^Nobody signed it, and it holds nothing/],
])("%s: what is said of its log", async (file, notice, log) => {
  const { rows } = await cli(["report", file]);
  const { sections, ...record } = Record.parse(rows[0]);
  expect(record.notice).toMatch(notice);
  const blocks = sections.find(({ id }) => id === "log")?.blocks ?? [];
  expect(blocks.flatMap(({ items = [] }) => items)[0]).toMatch(log);
});

test("with --to it is a PDF file, and nothing but one line is said of it", async () => {
  const to = join(folder.path, "record.pdf");
  const { status, rows, err } = await cli(["report", DEMO, "--to", to]);
  const file = await readFile(to);
  expect([status, err, rows]).toEqual([0, "", [{ file: DEMO, to, bytes: file.length }]]);
  expect((await readPdf(new Uint8Array(file))).title).toBe(
    "Visit record: Otterfold Mill, boiler 1 (invented)",
  );
});

test("what is there stays, unless --force is given", async () => {
  const to = join(folder.path, "there.pdf");
  await writeFile(to, "kept");
  const { status, out, err } = await cli(["report", DEMO, "--to", to]);
  expect([status, out, await readFile(to, "utf8")]).toEqual([1, "", "kept"]);
  expect(err).toBe(`report: ${to} is there already; --force writes over it.\nreport: Nothing was written.\n`);
  expect((await cli(["report", DEMO, "--to", to, "--force"])).status).toBe(0);
  expect(await readFile(to, "latin1")).toMatch(/^%PDF-/);
});

test.each([
  ["no file", [], /^report: expected one visit bundle, found 0\.$/m],
  ["two files", [DEMO, DEMO], /^report: expected one visit bundle, found 2\.$/m],
  ["a flag that is none", [DEMO, "--as", "x"], /^report: expected a visit bundle, --to and --force only: /m],
  [
    "another ending",
    [DEMO, "--to", "x.docx"],
    /^report: --to: expected a file ending in \.pdf, found "x\.docx"\.$/m,
  ],
])("%s: status 2 and a sentence", async (_, args, said) => {
  const { status, out, err } = await cli(["report", ...args]);
  expect([status, out]).toEqual([2, ""]);
  expect(err).toMatch(said);
});

test.each([
  [
    "a file that is not there",
    ["nowhere.json"],
    /^report: nowhere\.json: Expected a readable file, found none of that name\.$/m,
  ],
  ["a folder", ["demo-data"], /^report: demo-data: Expected a readable file, found a folder\.$/m],
  ["a limits sheet", ["demo-data/sheets/demo-35.json"], /demo-35\.json: format: Expected a visit bundle/],
  ["a truncated visit", ["demo-data/awkward/truncated.json"], /truncated\.json: /],
  [
    "a place that cannot be written",
    [DEMO, "--to", "/nowhere/record.pdf"],
    /^report: \/nowhere\/record\.pdf: expected a file that can be written, found no such folder\.$/m,
  ],
])("%s: status 1 and a sentence", async (_, args, said) => {
  const { status, out, err } = await cli(["report", ...args]);
  expect([status, out]).toEqual([1, ""]);
  expect(err).toMatch(said);
});
