import fc from "fast-check";
import { describe, expect, test } from "vitest";
import type { Content } from "../../../src/record/backup/line.ts";
import { isWhole } from "../../../src/record/backup/read.ts";
import { bundleOf } from "../../../src/record/bundle.ts";
import { anySheet, anyVisit } from "../arbitrary.ts";
import { SHEET, VISIT } from "../visit.ts";
import { CONTENTS, COUNTS, linesOf, readAll, sha256 } from "./backup.ts";

const json = (value: unknown) => JSON.parse(JSON.stringify(value));

/** A line whose digest fits what it says, whatever that is. */
const forged = async (text: string) => `${text.slice(0, -1)},"sha256":"${await sha256(text)}"}\n`;

test("what is written is read, whole and in order", async () => {
  const { reads, found } = await readAll(await linesOf());
  expect(isWhole(found)).toBe(true);
  expect(found).toMatchObject({ counts: COUNTS, settings: true, damaged: 0, problems: [] });
  expect(found.end).toMatchObject({ lines: CONTENTS.length + 1, counts: COUNTS });
  const items = reads.map((read) => (read.kind === "item" ? read.item : read));
  expect(items.map(({ kind }) => kind)).toEqual(["head", ...CONTENTS.map(({ kind }) => kind), "end"]);
  expect(items[2]).toEqual({ kind: "sheet", sheet: SHEET });
  expect(items[3]).toEqual({ kind: "visit", visit: VISIT });
  expect(items[6]).toEqual({ kind: "office-visit", file: "from-a-van.json", visit: VISIT });
});

test("every line is JSON, and its digest is of the line without it", async () => {
  for (const line of await linesOf()) {
    const { sha256: digest, ...rest } = JSON.parse(line);
    expect(digest).toBe(await sha256(JSON.stringify(rest)));
  }
});

test("any visits and sheets come back as they were", () =>
  fc.assert(
    fc.asyncProperty(
      fc.array(anyVisit, { maxLength: 3 }),
      fc.array(anySheet, { maxLength: 2 }),
      async (visits, sheets) => {
        const contents: Content[] = [
          ...visits.map((visit): Content => ({ kind: "visit", bundle: json(bundleOf(visit)) })),
          ...sheets.map((sheet): Content => ({ kind: "sheet", sheet: json(sheet) })),
        ];
        const { reads, found } = await readAll(await linesOf(contents));
        expect(isWhole(found)).toBe(true);
        const items = reads.flatMap((read) => (read.kind === "item" ? [read.item] : []));
        expect(items.flatMap((item) => (item.kind === "visit" ? [item.visit] : []))).toEqual(visits);
        expect(items.flatMap((item) => (item.kind === "sheet" ? [item.sheet] : []))).toEqual(sheets);
      },
    ),
    { numRuns: 20 },
  ));

test("what could not be read when it was made is told by it", async () => {
  const { found } = await readAll(await linesOf(CONTENTS, ["Visit v9 cannot be read."]));
  expect(found.end?.missing).toEqual(["Visit v9 cannot be read."]);
});

describe("a damaged file", () => {
  const cases: readonly (readonly [
    string,
    (lines: string[]) => string[] | Promise<string[]>,
    RegExp | null,
    number,
  ])[] = [
    ["cut between two lines", (lines) => lines.slice(0, 5), /cut short/, 0],
    ["without its last line", (lines) => lines.slice(0, -1), /cut short/, 0],
    ["cut inside a line", (lines) => [...lines.slice(0, 5), (lines[5] ?? "").slice(0, 300)], /cut short/, 1],
    ["a line taken out", (lines) => lines.filter((_, place) => place !== 3), /missing or moved/, 0],
    ["a line twice", (lines) => [...lines.slice(0, 4), ...lines.slice(3)], /missing or moved/, 0],
    [
      "two lines in each other's place",
      ([a = "", b = "", c = "", ...rest]) => [a, c, b, ...rest],
      /missing or moved/,
      0,
    ],
    ["without its first line", ([, ...rest]) => rest, /first line/, 0],
    ["two heads", ([head = "", ...rest]) => [head, head, ...rest], /one first line/, 0],
    ["something behind its end", (lines) => [...lines, lines[3] ?? ""], /nothing behind/, 0],
    [
      "one letter changed",
      (lines) => lines.map((line, place) => (place === 3 ? line.replace("9.2", "9.3") : line)),
      null,
      1,
    ],
    ["an empty line in it", ([head = "", ...rest]) => [head, "\n", ...rest], null, 1],
    [
      "a line of a kind that there is not",
      async ([head = "", ...rest]) => [head, await forged('{"kind":"key"}'), ...rest],
      null,
      1,
    ],
    [
      "a line without its kind first",
      async ([head = "", ...rest]) => [head, await forged('{"settings":{},"kind":"settings"}'), ...rest],
      null,
      1,
    ],
    [
      "settings that are far too long",
      async ([head = "", ...rest]) => [
        head,
        await forged(`{"kind":"settings","settings":{"a":"${"x".repeat(1024 * 1024)}"}}`),
        ...rest,
      ],
      null,
      1,
    ],
    [
      "a visit without its bundle",
      async ([head = "", ...rest]) => [head, await forged('{"kind":"visit"}'), ...rest],
      null,
      1,
    ],
    [
      "a visit that is a sheet",
      async ([head = "", ...rest]) => [
        head,
        await forged(JSON.stringify({ kind: "visit", bundle: SHEET })),
        ...rest,
      ],
      null,
      1,
    ],
    [
      "a line with a field too many",
      async ([head = "", ...rest]) => [
        head,
        await forged('{"kind":"settings","settings":{},"x":1}'),
        ...rest,
      ],
      null,
      1,
    ],
    [
      "a field given twice",
      async ([head = "", ...rest]) => [
        head,
        await forged('{"kind":"settings","settings":{"a":1,"a":2}}'),
        ...rest,
      ],
      null,
      1,
    ],
    [
      "a prototype",
      async ([head = "", ...rest]) => [
        head,
        await forged('{"kind":"settings","settings":{"__proto__":{"x":1}}}'),
        ...rest,
      ],
      null,
      1,
    ],
    [
      "deep nesting",
      async ([head = "", ...rest]) => [
        head,
        await forged(`{"kind":"settings","settings":{"a":${"[".repeat(90)}${"]".repeat(90)}}}`),
        ...rest,
      ],
      null,
      1,
    ],
    [
      "a visit that breaks the rules",
      async ([head = "", ...rest]) => [
        head,
        await forged(
          JSON.stringify({ kind: "visit", bundle: { ...VISIT, entries: VISIT.entries.slice(1) } }),
        ),
        ...rest,
      ],
      null,
      1,
    ],
    [
      "a clip that is no sound",
      async ([head = "", ...rest]) => [
        head,
        await forged(
          '{"kind":"clip","visitId":"v1","seq":0,"at":"2026-11-25T09:00:00.000Z","type":"text/html","data":"T2dnUw=="}',
        ),
        ...rest,
      ],
      null,
      1,
    ],
    [
      "a clip that is no base64",
      async ([head = "", ...rest]) => [
        head,
        await forged(
          '{"kind":"clip","visitId":"v1","seq":0,"at":"2026-11-25T09:00:00.000Z","type":"audio/wav","data":"<b>"}',
        ),
        ...rest,
      ],
      null,
      1,
    ],
  ];

  test.each(cases)("%s", async (_, harm, problem, damaged) => {
    const { found } = await readAll(await harm(await linesOf()));
    expect(isWhole(found)).toBe(false);
    expect(found.damaged).toBe(damaged);
    expect(found.damage.every(({ damage }) => damage.problems.length > 0)).toBe(true);
    if (problem) expect(found.problems.map(({ message }) => message).join(" ")).toMatch(problem);
    else expect(found.problems).toEqual([]);
  });

  test("says which visit it was, and gives the others", async () => {
    const lines = await linesOf();
    const { reads, found } = await readAll(
      lines.map((line, place) => (place === 5 ? line.replace('"seq":1', '"seq":7') : line)),
    );
    expect(found.damage).toMatchObject([{ line: 6, damage: { kind: "visit", what: 'visit "Second"' } }]);
    expect(reads.filter((read) => read.kind === "item")).toHaveLength(lines.length - 1);
    expect(found.counts.visits).toBe(1);
  });

  test("no byte of it changes unseen", async () => {
    const text = (await linesOf()).join("");
    await fc.assert(
      fc.asyncProperty(
        fc.nat(text.length - 1),
        fc.constantFrom("x", "0", "\n", "é", ""),
        async (at, sign) => {
          const changed = text.slice(0, at) + sign + text.slice(at + 1);
          if (changed === text || changed === text.slice(0, -1)) return;
          const { found } = await readAll(changed.replace(/\n$/, "").split("\n"));
          expect(isWhole(found)).toBe(false);
        },
      ),
      { numRuns: 60 },
    );
  });
});

test("something else is given up soon, however long it is", async () => {
  let asked = 0;
  async function* garbage(): AsyncGenerator<Uint8Array> {
    for (;;) {
      asked += 1;
      yield new TextEncoder().encode("no backup");
    }
  }
  const { found } = await readAll(garbage());
  expect(found.problems).toMatchObject([{ message: expect.stringMatching(/no line of one/) }]);
  expect(asked).toBeLessThan(50);
});

test("where lines cannot be read on, what was before stays", async () => {
  const lines = await linesOf();
  async function* failing(): AsyncGenerator<Uint8Array> {
    for (const line of lines.slice(0, 4)) yield new TextEncoder().encode(line.trimEnd());
    throw new Error("the disk is gone");
  }
  const { found } = await readAll(failing());
  expect(found.counts).toMatchObject({ visits: 1, sheets: 1 });
  expect(found.problems.map(({ message }) => message)).toEqual([
    "Expected the whole file, could not read on after line 4: the disk is gone.",
    "Expected the last line of a backup, found none: the file was cut short.",
  ]);
});
