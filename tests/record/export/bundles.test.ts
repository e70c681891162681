import { readFileSync } from "node:fs";
import Ajv2020 from "ajv/dist/2020.js";
import addFormats from "ajv-formats";
import fc from "fast-check";
import { describe, expect, test } from "vitest";
import { exportVisit } from "../../../src/record/bundle.ts";
import { bundleLines, importVisits } from "../../../src/record/export/bundles.ts";
import type { Visit } from "../../../src/visit/visit.ts";
import { anyVisit } from "../arbitrary.ts";
import { VISIT } from "../visit.ts";
import { anyHostileVisit } from "./hostile.ts";

// Outside reference: Ajv, an independent validator of JSON Schema 2020-12, on the published schema.
const ajv = new Ajv2020({ strict: true, strictRequired: false });
addFormats(ajv);
const fits = ajv.compile(JSON.parse(readFileSync("src/record/schema/visit-1.schema.json", "utf8")));

const BUNDLE = JSON.stringify(VISIT);

const exportVisits = (visits: readonly Visit[]) => [...bundleLines(visits)].join("");

describe("many visits in one file", () => {
  test("any visits come back, each a line that the published schema takes", () => {
    fc.assert(
      fc.property(fc.array(fc.oneof(anyVisit, anyHostileVisit), { maxLength: 4 }), (visits) => {
        const text = exportVisits(visits);
        const lines = text.split("\n").slice(0, -1);
        expect(lines).toHaveLength(visits.length);
        for (const line of lines) expect(fits(JSON.parse(line))).toBe(true);
        const read = [...importVisits(text)].map(({ read }) => (read.ok ? read.visit : read.problems));
        expect(read).toEqual(visits);
      }),
      { numRuns: 100 },
    );
  });

  test("equal visits give equal lines, whatever the order of their fields", () => {
    const { head, entries, format } = VISIT;
    expect(exportVisits([{ entries, head, format }])).toBe(exportVisits([VISIT]));
    expect(JSON.parse(exportVisits([VISIT]))).toEqual(JSON.parse(exportVisit(VISIT)));
  });
});

describe("each line is checked on its own", () => {
  test.each<[string, string, (string | true)[]]>([
    ["sound ones", `${BUNDLE}\n${BUNDLE}\n`, ["1 true", "2 true"]],
    [
      "without a last line end, with CRLF, a byte order mark and blank lines",
      `\uFEFF${BUNDLE}\r\n\r\n \t\n${BUNDLE}`,
      ["1 true", "4 true"],
    ],
    ["one broken off", `${BUNDLE.slice(0, 90)}\n${BUNDLE}`, ["1 false", "2 true"]],
    ["one that is a sheet", `${BUNDLE}\n{"format":"burnerside-sheet/1"}`, ["1 true", "2 false"]],
    ["a list of bundles is no bundle", `[${BUNDLE}]`, ["1 false"]],
    ["nothing", "", []],
    ["a byte order mark alone", "\uFEFF", []],
  ])("%s", (_what, text, expected) =>
    expect([...importVisits(text)].map(({ line, read }) => `${line} ${read.ok}`)).toEqual(expected),
  );

  test("a problem says where, in the words of a single bundle", () => {
    const [first] = importVisits(`${BUNDLE.replace('"natural-gas"', '"coal"')}\n`);
    expect(first?.read).toMatchObject({ ok: false, problems: [{ path: "head.fuel" }] });
  });

  test("one too large for a bundle is refused, and the next is read", () => {
    const large = `${BUNDLE.slice(0, -1)},"x":"${"x".repeat(32 * 1024 * 1024)}"}`;
    const read = [...importVisits(`${large}\n${BUNDLE}`)].map((each) => each.read);
    expect(read.map(({ ok }) => ok)).toEqual([false, true]);
    expect(JSON.stringify(read[0])).toContain("at most 32 MiB");
  });
});
