import { expect, test } from "vitest";
import { labelsOf } from "../../../src/app/own-voice/labels.ts";
import { voiceOf } from "./voices.ts";

const DAYS = ["2026-03-01", "2026-01-01", "2026-02-01"];

/** The labels of voices with these names, taught on those days. */
const labels = (...names: string[]) => [
  ...labelsOf(
    names.map((name, at) => voiceOf({ id: `p${at}`, name, taughtAt: `${DAYS[at]}T10:00:00.000Z` })),
  ).entries(),
];

test.each<[string, string[], string[]]>([
  ["nobody", [], []],
  ["two names", ["Ada", "Ben"], ["p1 Ben", "p0 Ada"]],
  ["one name, three times", ["Ada", "Ada", "Ada"], ["p1 Ada", "p2 Ada (2)", "p0 Ada (3)"]],
  [
    "a name that looks like a number of another",
    ["Ada (2)", "Ada", "Ada"],
    ["p1 Ada", "p2 Ada (2)", "p0 Ada (2) (2)"],
  ],
  ["names that differ in what nobody sees", ["Ada\u202e", "Ada\u202d"], ["p1 Ada□", "p0 Ada□ (2)"]],
])("%s", (_, names, expected) =>
  expect(labels(...names).map(([id, label]) => `${id} ${label}`)).toEqual(expected),
);
