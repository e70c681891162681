import { describe, expect, test } from "vitest";
import { tasksOf } from "../../src/record/notes/tasks.ts";
import { taskSaid } from "../../src/record/report/notes.ts";
import { dueInWords, taskInShort } from "../../src/record/task-words.ts";
import type { Task } from "../../src/visit/task.ts";
import { SAID } from "../support/notes.ts";

const words = (text: string) => tasksOf(text, SAID.at, SAID.zone).map((task) => taskInShort(task, text));

describe("the note's own verb comes before the name of the action that it was taken for", () => {
  test.each<[note: string, words: string[]]>([
    ["left the boiler off, sealed the gas cock", ["Seal gas cock"]],
    ["tightened the union", ["Tighten union"]],
    ["topped up the system", ["Top up system"]],
    ["changed the filter", ["Change filter"]],
    ["still needs bleeding", ["Bleed"]],
    ["trap needs a good clean", ["Clean trap"]],
    ["needs a new fan", ["Replace fan"]],
    ["need two fibre washers", ["Needed: two fibre washers"]],
    ["leak check done", ["Leak check"]],
    ["check valve replaced", ["Replace check valve"]],
    ["tested for leaks", ["Test for leaks"]],
    ["ask the owner for access", ["Ask the owner: access"]],
    ["let the customer know about the noise", ["Tell the customer: noise"]],
    ["tell the owner to cut it back", ["Tell the owner: cut it back"]],
    ["tell Mrs Hall the drain freezes", ["Tell: the drain freezes"]],
    ["call Harriet tomorrow", ["Call somebody"]],
    ["call Harriet about the fan", ["Call: fan"]],
    ["called the maker", ["Call maker"]],
    ["revisit on friday", ["Come back"]],
    ["electrician to check the supply", ["Electrician to check supply"]],
    ["send the invoice to the managing agent", ["Send invoice to the manager"]],
    ["quote the owner for a new expansion vessel", ["Quote the owner for expansion vessel"]],
    ["office please book a return visit for friday", ["Come back (office)"]],
    ["top the pressure up to one point five bar", ["Top up pressure"]],
    ["take the fan out next visit", ["Take out fan"]],
    ["get the radiators bled", ["Bleed radiators"]],
    ["the caretaker will get the radiators bled", ["Caretaker to bleed radiators"]],
    ["order a fan, two washers and a gasket", ["Order fan", "Order two washers", "Order gasket"]],
    ["the tenant has asked for a quote on a new pump", ["Quote the tenant for pump"]],
    ["tenant wants ringing before we come", ["Ring the tenant"]],
    ["pump is due a service", ["Service pump"]],
    ["fan wants sorting", ["Repair fan"]],
    ["have a look at the siphon", ["Have a look at siphon"]],
  ])("%s", (note, expected) => {
    expect(words(note)).toEqual(expected);
  });
});

const task = (rest: Partial<Task>): Task => ({
  action: { value: "other", span: null },
  thing: null,
  due: null,
  who: null,
  done: false,
  ...rest,
});

test("what a reviewer chose has the action's name, whatever the note's verb", () => {
  const chosen = task({ action: { value: "repair", span: null }, thing: { value: "cock", span: null } });
  expect(taskInShort(chosen, "sealed the cock")).toBe("Repair cock");
  expect(taskInShort(task({ action: { value: "quote", span: null } }), "")).toBe("Quote a price");
  expect(taskInShort(task({ thing: { value: "key", span: null } }), "the note")).toBe("Key");
  expect(taskInShort(task({}), "the note")).toBe("the note");
});

test("an hour that was said stands beside the day, and no day is made up", () => {
  const due = (text: string) => tasksOf(text, SAID.at, SAID.zone).map((one) => dueInWords(one, text));
  expect(due("come back on friday")).toEqual(["27 Nov 2026"]);
  expect(due("come back on the twelfth at half past nine")).toEqual([
    "12 Dec 2026 (“on the twelfth at half past nine”)",
  ]);
  expect(due("come back next week")).toEqual(["“next week”, no day named"]);
  expect(due("come back")).toEqual([""]);
  expect(due("fit it by 10 December 2026")).toEqual(["10 Dec 2026"]);
});

test("the record says the same", () => {
  const text = "sealed the gas cock, come back on friday at nine";
  expect(tasksOf(text, SAID.at, SAID.zone).map((one) => taskSaid(one, text))).toEqual([
    "Done: seal gas cock",
    "Follow-up: come back, 27 Nov 2026 (“on friday at nine”)",
  ]);
});
