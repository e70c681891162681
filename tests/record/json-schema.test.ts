import { readdirSync, readFileSync } from "node:fs";
import Ajv2020, { type ValidateFunction } from "ajv/dist/2020.js";
import addFormats from "ajv-formats";
import fc from "fast-check";
import { describe, expect, test } from "vitest";
import type { z } from "zod";
import { lockedHead } from "../../src/record/backup/locked.ts";
import { exportVisit } from "../../src/record/bundle.ts";
import { schemaFiles } from "../../src/record/json-schema.ts";
import { Sheet } from "../../src/visit/sheet.ts";
import { Visit } from "../../src/visit/visit.ts";
import { anySheet, anyVisit } from "./arbitrary.ts";
import { linesOf } from "./backup/backup.ts";
import { edited } from "./edit.ts";
import { SHEET, VISIT } from "./visit.ts";

// Outside reference: Ajv, an independent validator of JSON Schema 2020-12, in its strict mode but for one
// style rule of its own (strictRequired), which "min, max or both" cannot follow.
const ajv = new Ajv2020({ strict: true, strictRequired: false, allErrors: true });
addFormats(ajv);
const published = (name: string) => readFileSync(`src/record/schema/${name}`, "utf8");
const visitFits = ajv.compile(JSON.parse(published("visit-1.schema.json")));
const sheetFits = ajv.compile(JSON.parse(published("sheet-1.schema.json")));

test("the published files are those that the types give (else: npm run -s cli -- schema --write)", () => {
  const files = readdirSync("src/record/schema").map((name) => ({ name, text: published(name) }));
  expect(files).toEqual([...schemaFiles()].sort((a, b) => a.name.localeCompare(b.name)));
});

test.each(schemaFiles())("$name says what it is", ({ text }) => {
  expect(JSON.parse(text)).toMatchObject({
    $schema: "https://json-schema.org/draft/2020-12/schema",
    $id: expect.stringMatching(/^urn:burnerside:schema:(visit|sheet|voice|backup-line|backup-locked)-1$/),
    title: expect.stringMatching(/\w/),
    description: expect.stringMatching(/\w/),
  });
});

test("exported visits fit", () => {
  fc.assert(fc.property(anyVisit, (visit) => visitFits(JSON.parse(exportVisit(visit)))));
});

test("so does a visit from before there was a licence, and one with a firm that is no line of text does not", () => {
  const old: Visit = JSON.parse(readFileSync("tests/record/old/before-licence.visit.json", "utf8"));
  expect(visitFits(old)).toBe(true);
  expect(visitFits(edited(old, "entries[0].body.details.firm", "Tallowbeck\nHeating"))).toBe(false);
});

test.each(readdirSync("demo-data/sheets"))("the demo sheet %s fits", (name) => {
  expect(sheetFits(JSON.parse(readFileSync(`demo-data/sheets/${name}`, "utf8")))).toBe(true);
});

test.each([
  ["format", "burnerside-visit/2"],
  ["head.fuel", "coal"],
  ["entries[0].seq", -1],
  ["entries[0].at", "today"],
  ["entries[0].body.quantity", "co3"],
  ["entries[0].mood", "good"],
  ["entries", undefined],
])("a visit with %s = %j does not fit", (path, value) => {
  expect(visitFits(edited(VISIT, path, value))).toBe(false);
});

test.each([
  ["fuels", {}],
  ["fuels.natural-gas.high.co2", { unit: "%" }],
  ["fuels.natural-gas.high.co2.unit", "mbar"],
  ["fuels.natural-gas.low.co2.belowHigh.min", "0"],
  ["source.enteredOn", "2026-02-29"],
])("a sheet with %s = %j does not fit", (path, value) => {
  expect(sheetFits(edited(SHEET, path, value))).toBe(false);
});

test("the lines of a backup fit, with their digests only, and so does the first line of a locked one", async () => {
  const lineFits = ajv.compile(JSON.parse(published("backup-line-1.schema.json")));
  for (const line of await linesOf()) {
    const { sha256, ...rest } = JSON.parse(line);
    expect([lineFits({ ...rest, sha256 }), lineFits(rest), lineFits({ ...rest, sha256, more: 1 })]).toEqual([
      true,
      false,
      false,
    ]);
  }
  const headFits = ajv.compile(JSON.parse(published("backup-locked-1.schema.json")));
  const head = lockedHead("AAAAAAAAAAAAAAAAAAAAAA==", "AAAAAAAAAA==");
  expect(headFits(head)).toBe(true);
  expect(headFits(edited(head, "kdf.iterations", 1000))).toBe(false);
});

describe("Ajv and zod agree on a file with one place changed", () => {
  const odd = fc.constantFrom(
    undefined,
    null,
    true,
    0,
    -1,
    0.5,
    1e9,
    "",
    "x",
    "%",
    "high",
    "co2",
    [],
    {},
    { min: 1 },
  );

  test.each([
    ["visits", anyVisit, visitFits, Visit],
    ["sheets", anySheet, sheetFits, Sheet],
  ] satisfies [string, fc.Arbitrary<unknown>, ValidateFunction, z.ZodType][])(
    "%s",
    (_name, any, fits, type) => {
      const seen = { taken: 0, refused: 0 };
      fc.assert(
        fc.property(any, fc.nat(), odd, fc.boolean(), (original, pick, value, extra) => {
          const places = placesIn(original);
          const place = `${places[pick % places.length]}${extra ? ".extra" : ""}`;
          const changed = JSON.parse(JSON.stringify(edited(original, place, value)));
          const parsed = type.safeParse(changed);
          const verdict = fits(changed);
          if (parsed.success) expect(verdict).toBe(true);
          // What only a refinement refuses (min above max, hard bounds), JSON Schema may have no words for.
          else if (parsed.error.issues.some(({ code }) => code !== "custom")) expect(verdict).toBe(false);
          seen[verdict ? "taken" : "refused"] += 1;
        }),
        { numRuns: 600 },
      );
      expect(Math.min(seen.taken, seen.refused)).toBeGreaterThan(30);
    },
  );
});

/** Every place in a value, as paths. */
function placesIn(value: unknown, at = ""): string[] {
  if (typeof value !== "object" || value === null) return [at];
  const inner = Object.entries(value).flatMap(([key, one]) =>
    placesIn(one, at === "" ? key : `${at}.${key}`),
  );
  return at === "" ? inner : [at, ...inner];
}
