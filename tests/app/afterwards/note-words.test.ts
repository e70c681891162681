import fc from "fast-check";
import { expect, test } from "vitest";
import { noteWords } from "../../../src/app/afterwards/note-words.ts";
import { tasksOf } from "../../../src/record/notes/tasks.ts";
import { noteLines, SAID } from "../../support/notes.ts";

const marked = (text: string) =>
  noteWords(text, tasksOf(text, SAID.at, SAID.zone))
    .map(({ text: words, from }) => (from ? `[${from}: ${words}]` : words))
    .join("");

test.each<[text: string, marked: string]>([
  ["customer is pleased", "customer is pleased"],
  ["", ""],
  [
    "order a fan and come back next tuesday",
    "[action: order] a [thing: fan] and [action: come back] [due: next tuesday]",
  ],
  [
    "fan to be replaced by the plumber soon",
    "[thing: fan] to be [action: replaced] by the [who: plumber] [due: soon]",
  ],
  // One day for both; one thing for both.
  [
    "come back tomorrow and fit the fan, then clean it",
    "[action: come back] [due: tomorrow] and [action: fit] the [thing: fan], then [action: clean] it",
  ],
])("%s", (text, expected) => {
  expect(marked(text)).toBe(expected);
});

test("the words stay whole, whatever came from them", () => {
  const spans = fc
    .tuple(fc.nat(40), fc.integer({ min: 1, max: 20 }))
    .map(([from, many]) => ({ from, to: from + many }));
  fc.assert(
    fc.property(
      fc.constantFrom(...noteLines("notes.txt")),
      fc.array(spans, { maxLength: 4 }),
      ({ text }, all) => {
        const tasks = all
          .filter(({ to }) => to <= text.length)
          .map((span) => ({
            action: { value: "order" as const, span },
            thing: { value: "x", span: { from: 0, to: 1 } },
            due: null,
            who: null,
            done: false,
          }));
        const words = noteWords(text, tasks);
        expect(words.map((word) => word.text).join("")).toBe(text);
        expect(words.every((word) => word.text !== "")).toBe(true);
      },
    ),
  );
});
