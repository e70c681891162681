import { expect, test } from "vitest";
import { copyLines, storable } from "../../../src/cli/office/sent.ts";
import type { Tables } from "../../../src/cli/office/tables.ts";

// The text format of COPY: PostgreSQL 15 documentation, SQL commands, COPY, "Text Format" (from memory).

const entry = (changes: Partial<Tables["entries"]>): Tables["entries"] => ({
  visit_id: "v",
  seq: 0,
  entry_id: "e",
  at: "2026-11-26T10:00:00.000Z",
  kind: "note",
  engine: "typed",
  said: "",
  confidence: 1,
  body: {},
  ...changes,
});

const [SAID, BODY] = [6, 8];
const column = (changes: Partial<Tables["entries"]>, place: number) =>
  copyLines("entries", [entry(changes)])
    .replace(/\n$/, "")
    .split("\t")[place];

test.each([
  ["a plain text", "CO2 9.2", "CO2 9.2"],
  ["an empty text is none", "", ""],
  ["a tab", "a\tb", "a\\tb"],
  ["ends of lines", "a\nb\r", "a\\nb\\r"],
  ["a backslash", "a\\b", "a\\\\b"],
  ["what would be no value", "\\N", "\\\\N"],
  ["NUL", "a\0b", "a\uFFFDb"],
  ["half a surrogate pair", "a\ud800b", "a\uFFFDb"],
  ["a whole one", "a😀b", "a😀b"],
])("%s", (_, said, sent) => expect(column({ said }, SAID)).toBe(sent));

test.each([
  ["JSON with a quoted backslash", { text: "a\\b" }, '{"text":"a\\\\\\\\b"}'],
  ["JSON with a line's end", { text: "a\nb" }, '{"text":"a\\\\nb"}'],
  ["JSON with NUL", { text: "\0" }, '{"text":"\uFFFD"}'],
])("%s", (_, body, sent) => expect(column({ body }, BODY)).toBe(sent));

test("no value and no rows", () => {
  const turn = { visit_id: "v", seq: 1, at: "2026-11-26T10:00:00Z", adjuster: "low", turns: -0.25 } as const;
  expect(copyLines("adjustments", [{ ...turn, firing: null }])).toBe(
    "v\t1\t2026-11-26T10:00:00Z\tlow\t-0.25\t\\N\n",
  );
  expect(copyLines("adjustments", [])).toBe("");
});

test("what cannot be held is replaced, and nothing else", () => {
  expect(storable("a\0\udc00😀é")).toBe("a\uFFFD\uFFFD😀é");
});
