import fc from "fast-check";
import { expect, test } from "vitest";
import { tasksOf } from "../../../src/record/notes/tasks.ts";
import { wordsOf } from "../../../src/record/notes/words.ts";
import { isWithin, MOST_TASKS, Task } from "../../../src/visit/task.ts";
import { noteLines } from "../../support/notes.ts";

const spoken = noteLines("notes.txt").flatMap(({ text }) => text.split(" "));

/** Words of notes in any order, with anything between them. */
const anyNote = fc.oneof(
  fc.array(fc.constantFrom(...spoken), { maxLength: 40 }).map((words) => words.join(" ")),
  fc
    .array(
      fc.tuple(
        fc.constantFrom(...spoken),
        fc.constantFrom(
          " ",
          "  ",
          ", ",
          ". ",
          "? ",
          "\n",
          " – ",
          "’s ",
          "\u00a0",
          "\u202e",
          "🔥 ",
          "\u0000",
          "-",
        ),
      ),
      {
        maxLength: 25,
      },
    )
    .map((parts) => parts.flat().join("")),
  fc.string({ unit: "binary", maxLength: 200 }),
  fc.string({ unit: "grapheme", maxLength: 200 }),
  fc
    .tuple(fc.constantFrom(...spoken), fc.string({ unit: "grapheme", maxLength: 30 }))
    .map((parts) => parts.join(" ")),
);

const anyMoment = fc.record({
  at: fc
    .date({
      min: new Date("1990-01-01T00:00:00Z"),
      max: new Date("2090-01-01T00:00:00Z"),
      noInvalidDate: true,
    })
    .map((date) => date.toISOString()),
  zone: fc.constantFrom(null, "Europe/London", "Asia/Kolkata", "Pacific/Apia", "America/St_Johns"),
});

test("whatever is said: tasks that can be kept, each field from words that are there, no day before that of the visit", () => {
  fc.assert(
    fc.property(anyNote, anyMoment, (text, { at, zone }) => {
      const tasks = tasksOf(text, at, zone);
      expect(tasks.length).toBeLessThanOrEqual(MOST_TASKS);
      const today = new Intl.DateTimeFormat("sv-SE", { timeZone: zone ?? "UTC", dateStyle: "short" }).format(
        new Date(at),
      );
      for (const task of tasks) {
        expect(Task.safeParse(task).error?.issues).toBeUndefined();
        expect(isWithin(task, text)).toBe(true);
        const { thing, due } = task;
        if (thing) expect(text.slice(thing.span?.from, thing.span?.to)).toBe(thing.value);
        if (due?.value) expect(due.value >= today).toBe(true);
        for (const part of [task.action, thing, due, task.who])
          if (part) expect(text.slice(part.span?.from, part.span?.to).trim()).not.toBe("");
        if (task.done) expect(due).toBeNull();
      }
    }),
    { numRuns: 1500 },
  );
});

test("the same text gives the same, whatever was read before", () => {
  fc.assert(
    fc.property(anyNote, anyNote, (text, other) => {
      const at = "2026-11-26T10:00:00Z";
      const first = tasksOf(text, at, null);
      tasksOf(other, at, "Asia/Kolkata");
      expect(tasksOf(text, at, null)).toEqual(first);
    }),
    { numRuns: 200 },
  );
});

test("what is no time, no zone, or longer than anybody dictates is read for what it has", () => {
  const text = "order a fan and come back tomorrow";
  expect(tasksOf(text, "no time", null).map(({ action, due }) => [action.value, due?.value])).toEqual([
    ["order", undefined],
    ["return", undefined],
  ]);
  expect(tasksOf(text, "2026-11-26T10:00:00Z", "No/Where")[1]?.due?.value).toBe("2026-11-27");
  expect(tasksOf("order a fan. ".repeat(20_000), "2026-11-26T10:00:00Z", null)).toHaveLength(MOST_TASKS);
  expect(tasksOf("a".repeat(1_000_000), "2026-11-26T10:00:00Z", null)).toEqual([]);
  expect(tasksOf(`order ${"on the ".repeat(50_000)}`, "2026-11-26T10:00:00Z", null)).toEqual([]);
});

test("words stand where they say, in UTF-16 units", () => {
  fc.assert(
    fc.property(anyNote, (text) => {
      for (const { from, to, text: word } of wordsOf(text)) expect(text.slice(from, to)).toBe(word);
    }),
  );
});

// The names are invented. Roles stay, names go, however they are written.
test.each([
  "call Harriet Oakes about the fan",
  "call harriet oakes about the fan",
  "tell Mr Oakes about the fan",
  "order a fan for Harriet",
  "return the key to Harriet Oakes on friday",
  "replace harriet's fan",
  "Harriet wants a quote for a fan",
  "bring Harriet the fan",
  "fan to be replaced by Harriet",
  "ask Harriet, the owner, for the key",
  "Harriet Oakes replaced the fan",
  "clean the trap at Harriet's house",
  "check the fan with Dr. Harriet Oakes",
  "tell Harriet the drain freezes",
  "tell harriet oakes the drain freezes",
  "tell the owner to ring Harriet about the drain",
  "told the owner Harriet has the key",
  "tell the tenant that harriet has the key",
  "hand over the logbook to Harriet Oakes by friday",
  "send the invoice to harriet oakes",
  "quote Harriet for a fan",
  "owner wants a price for moving Harriet's boiler",
  "chase Harriet for the paperwork",
])("no name is kept: %s", (text) => {
  const kept = tasksOf(text, "2026-11-26T10:00:00Z", null).map(({ thing }) => thing?.value ?? "");
  expect(kept.join(" ")).not.toMatch(/harriet|oakes/i);
});
