import { expect, test } from "vitest";
import { tasksOf } from "../../../src/record/notes/tasks.ts";
import { noteLines, SAID, shortTasks } from "../../support/notes.ts";

test.each(
  [
    "notes.txt",
    "held-out-1.txt",
    "held-out-2.txt",
    "held-out-3.txt",
    "held-out-4.txt",
    "held-out-5.txt",
    "held-out-6.txt",
    "held-out-7.txt",
    "held-out-8.txt",
    "held-out-9.txt",
  ].flatMap((file) => noteLines(file)),
)("$text", ({ text, expected, readAs }) => {
  expect(shortTasks(text)).toBe(readAs ?? expected);
  expect(readAs).not.toBe(expected);
});

test("both corpora have as much that asks for nothing as a note may", () => {
  const lines = noteLines("notes.txt");
  const nothing = lines.filter(({ expected }) => expected === "-").length;
  expect(lines.length).toBeGreaterThanOrEqual(150);
  expect(nothing).toBeGreaterThan(lines.length / 4);
});

test("as typed and as dictated: capitals and stops change nothing but the words themselves", () => {
  for (const { text } of noteLines("notes.txt")) {
    if (/[A-Z'’:,;.?]/.test(text)) continue;
    const typed = `${text[0]?.toUpperCase()}${text.slice(1)}.`;
    expect([text, shortTasks(typed).toLowerCase()]).toEqual([text, shortTasks(text).toLowerCase()]);
  }
});

test("each field is what its words say, and the words are there", () => {
  for (const { text } of noteLines("notes.txt")) {
    for (const { thing, who, action } of tasksOf(text, SAID.at, SAID.zone)) {
      if (thing) expect(text.slice(thing.span?.from, thing.span?.to)).toBe(thing.value);
      expect(action.span && text.slice(action.span.from, action.span.to)).toMatch(/^\S.*\S$/);
      if (who) expect(text.slice(who.span?.from, who.span?.to)).toMatch(/^\p{L}+$/u);
    }
  }
});
