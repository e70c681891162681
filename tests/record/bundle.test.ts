import { readFileSync } from "node:fs";
import fc from "fast-check";
import { describe, expect, test } from "vitest";
import { exportVisit, importVisit } from "../../src/record/bundle.ts";
import type { Problem } from "../../src/record/problem.ts";
import type { EntryBody, Reading } from "../../src/visit/entry.ts";
import { foldVisit } from "../../src/visit/fold.ts";
import { MOST_TASKS, type Task } from "../../src/visit/task.ts";
import type { Visit } from "../../src/visit/visit.ts";
import { anyVisit } from "./arbitrary.ts";
import { edited, shuffled } from "./edit.ts";
import { VISIT } from "./visit.ts";

describe("a visit goes out and comes back", () => {
  test("exactly, whatever is in it", () => {
    fc.assert(
      fc.property(anyVisit, (visit) => {
        expect(importVisit(exportVisit(visit))).toStrictEqual({ ok: true, visit });
      }),
    );
  });

  test("as the same text, whatever the order of its keys", () => {
    fc.assert(
      fc.property(anyVisit, (visit) => {
        expect(exportVisit(shuffled(visit))).toBe(exportVisit(visit));
      }),
    );
  });

  test("format first, then head, then entries, a newline at the end", () => {
    const text = exportVisit(VISIT);
    expect(Object.keys(JSON.parse(text))).toEqual(["format", "head", "entries"]);
    expect(text).toMatch(/^\{\n {2}"format": "burnerside-visit\/1",\n.*[^\n]\n$/s);
  });

  test("with a byte order mark before it", () => {
    expect(importVisit(`\uFEFF${exportVisit(VISIT)}`)).toEqual({ ok: true, visit: VISIT });
  });
});

const UNSURE = { text: "a quarter", reason: "no screw", candidates: [] };
const good = (path: string, value: unknown) => ({ path, value });
const bad = (path: string, value: unknown, message: string, at = path) => ({ path, value, message, at });

const DETAILS = {
  appliance: "B-17",
  place: "Plant room",
  technician: "A. Quill",
  licence: "0417",
  firm: "Tallowbeck Heating",
  instrument: { name: "Analyser", serial: "7", calibratedOn: "2026-02-01" },
};
const TASK: Task = {
  action: { value: "order", span: { from: 0, to: 5 } },
  thing: { value: "fan", span: { from: 6, to: 9 } },
  due: null,
  who: null,
  done: false,
};

/** The visit with a note "order fan" in front, and one more entry. */
const withNote = (...bodies: EntryBody[]): Visit => ({
  ...VISIT,
  entries: [{ kind: "note", text: "order fan" } as const, ...bodies].map((body, seq) => {
    const [first] = VISIT.entries;
    if (!first) throw new RangeError("no entry");
    return { ...first, id: `n${seq}`, seq, body };
  }),
});
const problemsOf = (visit: Visit): readonly Problem[] => {
  const read = importVisit(JSON.stringify(visit));
  return read.ok ? [] : read.problems;
};

describe("tasks are of a note that there is, and of its words", () => {
  const tasks = (target: string, ...given: Task[]): EntryBody => ({ kind: "tasks", target, tasks: given });
  const noted = (target: string, text: string): EntryBody => ({
    kind: "replace",
    target,
    with: { kind: "note", text },
  });
  const to = (end: number): Task => ({ ...TASK, thing: { value: "fan", span: { from: 6, to: end } } });
  const READING = VISIT.entries[0]?.body ?? { kind: "note", text: "" };
  const none = 'Expected the id of a note, found "n1", which is none.';
  test.each<[what: string, bodies: EntryBody[], problem: string | null]>([
    ["its words", [tasks("n0", TASK)], null],
    ["none", [tasks("n0")], null],
    ["typed in, of no words", [tasks("n0", { ...TASK, thing: { value: "pump", span: null } })], null],
    ["to its last letter", [tasks("n0", to(9))], null],
    [
      "beyond its last letter",
      [tasks("n0", to(10))],
      "Expected spans in the note's 9 letters, found one beyond.",
    ],
    ["as it was mended: longer", [noted("n0", "order fan two"), tasks("n0", to(13))], null],
    [
      "as it was mended: shorter",
      [noted("n0", "order"), tasks("n0", TASK)],
      "Expected spans in the note's 5 letters, found one beyond.",
    ],
    ["mended after it", [tasks("n0", TASK), noted("n0", "order")], null],
    ["a reading", [READING, tasks("n1")], none],
    [
      "a note that became a reading",
      [{ kind: "replace", target: "n0", with: READING as Reading }, tasks("n0")],
      'Expected the id of a note, found "n0", which is none.',
    ],
    ["a reading that became a note", [READING, noted("n1", "order fan"), tasks("n1", TASK)], null],
    ["itself", [tasks("n1")], 'Expected the id of an earlier entry, found "n1".'],
    [
      "a later one",
      [tasks("n2"), { kind: "note", text: "x" }],
      'Expected the id of an earlier entry, found "n2".',
    ],
  ])("%s", (_, bodies, problem) => {
    expect(problemsOf(withNote(...bodies)).map(({ message }) => message)).toEqual(
      problem === null ? [] : [problem],
    );
  });
  test.each([
    ["entries[1].body.tasks[0].action.value", "steal"],
    ["entries[1].body.tasks[0].thing.value", ""],
    ["entries[1].body.tasks[0].thing.span", { from: 3, to: 3 }],
    ["entries[1].body.tasks[0].thing.span", { from: -1, to: 3 }],
    ["entries[1].body.tasks[0].due", { value: "2026-02-30", span: null }],
    ["entries[1].body.tasks[0].who", { value: "Ada Quill", span: null }],
    ["entries[1].body.tasks[0].done", "yes"],
    ["entries[1].body.tasks", Array.from({ length: MOST_TASKS + 1 }, () => TASK)],
  ])("nothing else is let in: %s", (path, value) => {
    expect(problemsOf(edited(withNote(tasks("n0", TASK)), path, value))).toHaveLength(1);
  });
});

describe("a sound bundle", () => {
  test.each([
    good("entries[0].body.value", 0),
    good("entries[0].body.value", 20),
    good("entries[1].body.value", 20000),
    good("entries[0].at", "2026-11-25T10:00:00+01:00"),
    good("entries[2].at", "2026-11-25T08:00:00Z"), // a clock put right during the visit: odd, not wrong
    good("entries[0].confidence", 0),
    good("entries[3].body", { kind: "details", details: DETAILS }),
    good("entries[3].body", { kind: "details", details: { ...DETAILS, instrument: null } }),
    good("entries[3].body", { kind: "details", details: edited(DETAILS, "licence", undefined) }),
    good("head.zone", null),
    good("head.sheet", null),
    // As stored before questions for what is missing, and since.
    good("entries[1].body", { kind: "unsure", unsure: { text: "CO2", reason: "no number", candidates: [] } }),
    good("entries[1].body", {
      kind: "unsure",
      unsure: { ...UNSURE, question: { asks: "screw", turns: 0.25 } },
    }),
    good("entries[1].body", {
      kind: "unsure",
      unsure: { ...UNSURE, candidates: [{ kind: "replace", value: 9, unit: null }, { kind: "strike" }] },
    }),
  ])("with $path $value", ({ path, value }) => {
    expect(problemsWith(path, value)).toEqual([]);
  });
});

// Written by this program before a technician's licence and firm were asked for.
test("a bundle from before there was a licence is read, and goes on as one that names none", () => {
  const text = readFileSync("tests/record/old/before-licence.visit.json", "utf8");
  expect(text).not.toMatch(/"(licence|firm)"/);
  const read = importVisit(text);
  if (!read.ok) throw new Error(JSON.stringify(read.problems));
  const { details } = foldVisit(read.visit);
  expect(details).toMatchObject({ technician: "T. Demo", licence: "", firm: "", appliance: "om-b1" });
  expect(importVisit(exportVisit(read.visit))).toEqual(read);
});

describe("a wrong bundle", () => {
  test.each([
    bad(
      "entries[1].body",
      { kind: "unsure", unsure: { ...UNSURE, question: { asks: "age" } } },
      'Expected one of "value", "quantity", "way", "screw", found "age".',
      "entries[1].body.unsure.question.asks",
    ),
    bad("entries[0].body.value", 20.1, "Expected CO2 from 0 to 20 %, found 20.1 %."),
    bad("entries[0].body.value", -0.1, "Expected CO2 from 0 to 20 %, found -0.1 %."),
    bad("entries[0].body.unit", "mbar", "Expected a unit of CO2 (%), found mbar."),
    bad("entries[3].body.with.value", 92, "Expected CO2 from 0 to 20 %, found 92 %."),
    bad("entries[1].seq", 2, "Expected 1, as places go up without gaps, found 2."),
    bad("entries[1].seq", 0, "Expected 1, as places go up without gaps, found 0."),
    bad("entries[3].id", "a", 'Expected an id of its own, found "a" of entries[0].'),
    bad("entries[3].body.target", "z", 'Expected the id of an earlier entry, found "z".'),
    bad("entries[3].body.target", "d", 'Expected the id of an earlier entry, found "d".'),
    bad("entries[2].body.target", "d", 'Expected the id of an earlier entry, found "d".'),
    bad(
      "entries[0].body.kind",
      "reeding",
      /^Expected one of "reading", "firing", .*, found "reeding"\.$/s.source,
    ),
    bad("entries[0].confidence", 1.01, "Expected a number at most 1, found 1.01."),
    bad("entries[0].seq", 0.5, "Expected a whole number, found 0.5."),
    bad(
      "entries[0].at",
      "25 Nov",
      'Expected an ISO 8601 time with its zone such as 2026-11-25T09:30:00.000Z, found "25 Nov".',
    ),
    bad("entries[0].mood", "good", 'Expected only fields that this format has, found "mood".'),
    bad("entries[0].phrase", undefined, "Expected text, but the field is missing."),
    bad("entries", {}, "Expected a list […], found {}."),
    bad("head", null, "Expected an object {…}, found null."),
    bad("head.fuel", "coal", 'Expected one of "natural-gas", "propane", found "coal".'),
    bad(
      "head.title",
      "x".repeat(201),
      `Expected text of at most 200 characters, found "${"x".repeat(60)}…".`,
    ),
    bad("head.sheet.fuels.natural-gas.high.co2.min", "9", 'Expected a number, found "9".'),
    bad(
      "format",
      "burnerside-visit/2",
      'Expected version "burnerside-visit/1" of the visit bundle, the only one that this program reads, found "burnerside-visit/2".',
    ),
    bad(
      "format",
      "burnerside-sheet/1",
      'Expected a visit bundle ("burnerside-visit/1"), found a limits sheet.',
    ),
    bad("format", "other", 'Expected a visit bundle ("burnerside-visit/1"), found "other".'),
    bad("format", undefined, 'Expected "burnerside-visit/1", but the field is missing.'),
  ])("with $path $value", ({ path, value, message, at }) => {
    const [problem, ...more] = problemsWith(path, value);
    expect(more).toEqual([]);
    expect(problem?.path).toBe(at);
    if (message.startsWith("^")) expect(problem?.message).toMatch(new RegExp(message, "s"));
    else expect(problem?.message).toBe(message);
  });

  test("tells every problem, those beyond its shape too", () => {
    const broken = edited(
      edited(edited(VISIT, "entries[0].at", 3), "entries[1].seq", 7),
      "head.units",
      "old",
    );
    expect(pathsIn(broken)).toEqual(["head.units", "entries[0].at", "entries[1].seq"]);
  });

  test("does not call a target missing because its own entry is broken", () => {
    expect(pathsIn(edited(VISIT, "entries[0].at", 3))).toEqual(["entries[0].at"]);
  });

  test.each(["null", "3", '"burnerside-visit/1"', "[]"])("that is %s and no object", (text) => {
    expect(problemsIn(text)).toEqual([
      { path: "", message: expect.stringMatching(/^Expected an object \{…\}, found /) },
    ]);
  });

  test("of more than 32 MiB is not even read", () => {
    const text = `"${"x".repeat(32 * 1024 * 1024)}`;
    expect(problemsIn(text)).toEqual([
      { path: "", message: "Expected a visit bundle of at most 32 MiB, found 32.1 MiB." },
    ]);
    expect(problemsIn(text.slice(0, -1))).toEqual([
      {
        path: "",
        message: 'Line 1, column 33554433: expected the closing " of a text, found the end of the file.',
      },
    ]);
  });

  test.each([
    [1500, "Expected at most 1000 problems, found more, and looked no further."],
    [1001, "Expected at most 1000 problems, found 1 more."],
    [1000, "Expected an object {…}, found 7."],
  ])("with %s problems tells a thousand, and whether there are more", (count, last) => {
    const problems = problemsIn(JSON.stringify({ ...VISIT, entries: Array(count).fill(7) }));
    expect(problems).toHaveLength(Math.min(count, 1001));
    expect(problems.at(-1)?.message).toBe(last);
  });
});

function problemsWith(path: string, value: unknown): Problem[] {
  return problemsIn(JSON.stringify(edited(VISIT, path, value)));
}

function pathsIn(broken: Visit): string[] {
  return problemsIn(JSON.stringify(broken)).map(({ path }) => path);
}

function problemsIn(text: string): Problem[] {
  const read = importVisit(text);
  return read.ok ? [] : read.problems;
}
