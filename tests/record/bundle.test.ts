import fc from "fast-check";
import { describe, expect, test } from "vitest";
import { exportVisit, importVisit } from "../../src/record/bundle.ts";
import type { Problem } from "../../src/record/problem.ts";
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

describe("a sound bundle", () => {
  test.each([
    good("entries[0].body.value", 0),
    good("entries[0].body.value", 20),
    good("entries[1].body.value", 20000),
    good("entries[0].at", "2026-11-25T10:00:00+01:00"),
    good("entries[2].at", "2026-11-25T08:00:00Z"), // a clock put right during the visit: odd, not wrong
    good("entries[0].confidence", 0),
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

  test("with problems without number tells a thousand and how many more", () => {
    const problems = problemsIn(JSON.stringify({ ...VISIT, entries: Array(2000).fill(7) }));
    expect(problems).toHaveLength(1001);
    expect(problems.at(-1)).toEqual({
      path: "",
      message: "Expected at most 1000 problems, found 1000 more.",
    });
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
