import { expect, test } from "vitest";
import { fileProblems } from "../../src/record/any-file.ts";
import { importVisit } from "../../src/record/bundle.ts";
import { outsized } from "../../src/record/outsized.ts";
import { readSheet } from "../../src/record/sheet-file.ts";
import { SHEET, VISIT } from "./visit.ts";

// Files that are small enough to be read, and made to be more than a device can bear once they are.

const LETTERS = 256 * 1024;
const { format, head, entries } = VISIT;
const filled = (piece: string, letters = LETTERS) =>
  `[${Array(Math.floor(letters / (piece.length + 1)))
    .fill(piece)
    .join(",")}]`;
const visit = (list: string) => `{"format":"${format}","head":${JSON.stringify(head)},"entries":${list}}`;
const one = (field: string) => visit(`[${JSON.stringify(entries[0]).replace(/\}$/, `,${field}}`)}]`);
const fields = (count: number) => Array.from({ length: count }, (_, at) => `"${at}":0`).join(",");

test.each<[what: string, text: string, path: string, message: RegExp]>([
  [
    "an eighth of a million entries that are none",
    visit(filled("0")),
    "entries",
    /^Expected a list of at most 20000 /,
  ],
  ["many empty ones", visit(filled("{}")), "entries", /^Expected a list of at most 20000 /],
  [
    "rivals without end",
    one(`"rivals":${filled("0")}`),
    "entries[0].rivals",
    /^Expected a list of at most 1000 /,
  ],
  [
    "a list where there is none",
    one(`"more":${filled("[]")}`),
    "entries[0].more",
    /^Expected a list of at most 1000 /,
  ],
  [
    "fields without end",
    `{"format":"${format}",${fields(200_000)}}`,
    "",
    /^Expected an object of at most 1000 /,
  ],
  [
    "the same further in",
    one(`"more":{${fields(200_000)}}`),
    "entries[0].more",
    /^Expected an object of at most 1000 /,
  ],
  ["lists in lists", "[".repeat(LETTERS), "", /^Line 1, column 65: expected at most 64 levels of nesting/],
  [
    "the same, closed",
    `${"[".repeat(LETTERS / 2)}${"]".repeat(LETTERS / 2)}`,
    "",
    /at most 64 levels of nesting/,
  ],
  ["objects in objects", '{"a":'.repeat(LETTERS / 5), "", /at most 64 levels of nesting/],
  ["a text without end", `["${"\\\\".repeat(LETTERS / 2)}`, "", /expected the closing "/],
  ["a number without end", "1".repeat(LETTERS), "", /^Expected an object/],
  ["space without end", " ".repeat(LETTERS), "", /expected a value, found the end of the file/],
])("%s: one sentence", (_, text, path, message) => {
  const read = importVisit(text);
  const [problem, ...more] = read.ok ? [] : read.problems;
  expect(problem).toEqual({ path, message: expect.stringMatching(message) });
  expect(more).toEqual([]);
  // Told by its own words, or that it is no file of ours.
  expect(fileProblems(text).length).toBe(1);
});

test("faults in every entry: a thousand are told, and the rest is not looked at", () => {
  const read = importVisit(visit(filled('{"id":7}', 100_000)));
  const problems = read.ok ? [] : read.problems;
  expect(problems).toHaveLength(1001);
  expect(problems.at(-1)?.message).toMatch(/looked no further/);
});

test.each([
  ["closing", `"closing":${filled("0", 500_000)}`],
  ["title", `"title":{${fields(40_000)}}`],
])("a sheet's %s without end is one sentence", (path, field) => {
  const { closing, title, ...rest } = SHEET;
  const read = readSheet(
    JSON.stringify({ ...rest, ...(path === "closing" ? { title } : { closing }) }).replace(
      /\}$/,
      `,${field}}`,
    ),
  );
  expect(read.ok ? [] : read.problems).toEqual([
    { path, message: expect.stringMatching(/^Expected an? (list|object) of at most/) },
  ]);
});

test.each<[what: string, value: unknown, path: string | null]>([
  ["20 000 entries", { entries: Array(20_000).fill(0) }, null],
  ["20 001 entries", { entries: Array(20_001).fill(0) }, "entries"],
  ["links of the head and 20 000 entries", { integrity: { links: Array(20_001).fill("") } }, null],
  ["one more", { integrity: { links: Array(20_002).fill("") } }, "integrity.links"],
  ["1000 rivals", { entries: [{ rivals: Array(1000).fill(0) }] }, null],
  ["1001 rivals", { entries: [{}, { rivals: Array(1001).fill(0) }] }, "entries[1].rivals"],
  ["1000 fields", Object.fromEntries(Array.from({ length: 1000 }, (_, at) => [`f${at}`, 0])), null],
  [
    "1001 fields",
    { head: Object.fromEntries(Array.from({ length: 1001 }, (_, at) => [`f${at}`, 0])) },
    "head",
  ],
  ["a long text", { title: "x".repeat(200_000) }, null],
])("%s", (_, value, path) => expect(outsized(value)?.path ?? null).toBe(path));
