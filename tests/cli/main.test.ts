import { once } from "node:events";
import { existsSync, readFileSync } from "node:fs";
import { join } from "node:path";
import { expect, test } from "vitest";
import { exportVisit } from "../../src/record/bundle.ts";
import { cliProcess, startCli } from "../support/cli.ts";
import { testFolder } from "../support/folder.ts";
import { inventedVisit } from "../support/invented-visits.ts";

// The command line as a process: what it reads and writes, its status, and that it ends. What the verbs do is tested beside.

const { path: folder, file } = testFolder();
const DEMO = "demo-data/visits/otterfold-mill.visit.json";
const pdf = join(folder, "record.pdf");
const workbook = join(folder, "visits.xlsx");
const book = join(folder, "book");
const bundle = file("visit.json", exportVisit(inventedVisit(0, 30)));

test.each<[string, string[], string, number, RegExp, RegExp]>([
  ["lines are read and answered", ["parse"], "CO2 nine\nhigh fire\n", 0, /^\{.*9.*\}\n\{.*high.*\}\n$/, /^$/],
  ["a PDF file", ["report", DEMO, "--to", pdf], "", 0, /^\{"file":.*\}\n$/, /^$/],
  ["a workbook", ["export", DEMO, "--to", workbook], "", 0, /^\{"ok":true.*\}\n$/, /^$/],
  ["a bad file", ["check", "package.json"], "", 1, /^\{.*"ok":false.*\}\n$/, /^$/],
  ["a flag that is none", ["report", "--as", "x"], "", 2, /^$/, /^report: expected /],
  ["no verb", [], "", 2, /^$/, /^Expected a verb\.\n {2}npm run -s cli -- parse/],
  [
    "a load from files and standard input",
    ["office", "load", bundle, "-", "--to", book],
    `${JSON.stringify(inventedVisit(1, 30))}\n{\n`,
    1,
    /^\{"engine":"embedded","visits":2,.*"bad":1,.*\}\n$/,
    /^office: loading into a book, embedded\.\noffice: standard input:2: .*\n$/,
  ],
])("%s", async (_name, args, input, expected, written, said) => {
  const { status, out, err } = await cliProcess(args, input);
  expect(status).toBe(expected);
  expect(out).toMatch(written);
  expect(err).toMatch(said);
});

test("what a process wrote is whole when it has ended", () => {
  expect(readFileSync(pdf, "latin1")).toMatch(/^%PDF-[\s\S]*%%EOF\s*$/);
  expect(readFileSync(workbook, "latin1")).toMatch(/^PK/);
  expect(existsSync(join(book, "data", "PG_VERSION"))).toBe(true);
});

test("whoever reads no further ends it without a complaint", async () => {
  const child = startCli(["parse"]);
  let said = "";
  child.stderr.on("data", (data) => {
    said += data;
  });
  const over = once(child, "close");
  child.stdin.write("CO2 nine\n");
  await once(child.stdout, "data");
  child.stdout.destroy();
  child.stdin.write("CO2 nine\n".repeat(100));
  expect(await over).toEqual([0, null]);
  expect(said).toBe("");
});
