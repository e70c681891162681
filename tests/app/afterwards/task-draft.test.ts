import { describe, expect, test } from "vitest";
import { draftOf, NEW_TASK, type TaskDraft, taskFrom } from "../../../src/app/afterwards/task-draft.ts";
import { tasksOf } from "../../../src/record/notes/tasks.ts";
import { Task } from "../../../src/visit/task.ts";
import { noteLines, SAID } from "../../support/notes.ts";

const read = (text: string): Task => {
  const [task] = tasksOf(text, SAID.at, SAID.zone);
  if (!task) throw new Error(text);
  return task;
};
const DATED = read("caretaker to clean the trap tomorrow");
const UNDATED = read("clean the trap soon");

test("a task that nobody changed is what it was, words and all", () => {
  for (const { text } of noteLines("notes.txt"))
    for (const task of tasksOf(text, SAID.at, SAID.zone)) expect(taskFrom(draftOf(task), task)).toEqual(task);
});

describe("what is changed comes from no words, the rest from what it came from", () => {
  const typed = <T>(value: T) => ({ value, span: null });
  test.each<[what: string, before: Task, changes: Partial<TaskDraft>, expected: Partial<Task>]>([
    ["the action", DATED, { action: "check" }, { action: typed("check") }],
    ["the thing", DATED, { thing: " siphon " }, { thing: typed("siphon") }],
    ["no thing", DATED, { thing: "  " }, { thing: null }],
    ["another day", DATED, { day: "2026-12-24" }, { due: typed("2026-12-24") }],
    ["no day", DATED, { day: "" }, { due: null }],
    ["a day where the words named none", UNDATED, { day: "2026-12-24" }, { due: typed("2026-12-24") }],
    ["still none where the words named none", UNDATED, { thing: "siphon" }, { thing: typed("siphon") }],
    ["somebody else", DATED, { who: "plumber" }, { who: typed("plumber") }],
    ["nobody", DATED, { who: "" }, { who: null }],
    ["done: then it has no day", DATED, { done: true }, { done: true, due: null }],
  ])("%s", (_, before, changes, expected) => {
    const task = taskFrom({ ...draftOf(before), ...changes }, before);
    expect(task).toEqual({ ...before, ...expected });
    expect(Task.parse(task)).toEqual(task);
  });
});

test("a new one comes from no words", () => {
  expect(taskFrom({ ...NEW_TASK, action: "bring", thing: "ladder" }, null)).toEqual({
    action: { value: "bring", span: null },
    thing: { value: "ladder", span: null },
    due: null,
    who: null,
    done: false,
  });
});

test.each<[what: string, changes: Partial<TaskDraft>]>([
  ["nothing chosen", {}],
  ["no such action", { action: "steal" }],
  ["no such role", { action: "bring", who: "Ada Quill" }],
  ["no such day", { action: "bring", day: "2026-02-30" }],
  ["a thing too long", { action: "bring", thing: "x".repeat(201) }],
])("%s: that cannot be", (_, changes) => {
  expect(taskFrom({ ...NEW_TASK, ...changes }, null)).toBeNull();
});
