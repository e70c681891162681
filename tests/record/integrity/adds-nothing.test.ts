import { readFileSync } from "node:fs";
import { describe, expect, test } from "vitest";
import { z } from "zod";
import { Entry } from "../../../src/visit/entry.ts";
import { VisitHead } from "../../../src/visit/visit.ts";

// What is signed is hashed as it was written. If reading an old log added a field, or wrote one otherwise, it would be another
// log: everything that was signed before would be "altered". Fields that these gain are optional, never with a default.

/** Every kind of schema inside one, with its place: "entry.body.details.firm: default". */
function kindsIn(schema: unknown, path: string, seen = new Set<unknown>()): string[] {
  if (!(schema instanceof z.core.$ZodType) || seen.has(schema)) return [];
  seen.add(schema);
  const { def } = schema._zod;
  const writes = (def.checks ?? []).some((check) => check._zod.def.check === "overwrite");
  const inside = Object.entries(def).flatMap(([name, value]): string[] => {
    if (name === "shape")
      return Object.entries(value).flatMap(([field, each]) => kindsIn(each, `${path}.${field}`, seen));
    if (name === "getter") return kindsIn(value(), path, seen);
    return (Array.isArray(value) ? value : [value]).flatMap((each) => kindsIn(each, path, seen));
  });
  return [`${path}: ${def.type}`, ...(writes ? [`${path}: overwrite`] : []), ...inside];
}

/** Kinds that give back what they are given, or refuse it. */
const PLAIN = [
  "object",
  "array",
  "union",
  "string",
  "number",
  "boolean",
  "literal",
  "enum",
  "nullable",
  "optional",
  "record",
  "never",
  "custom",
];

test.each([
  ["entry", Entry, ["entry.body.details.licence: default", "entry.body.details.firm: default"]],
  ["head", VisitHead, []],
])(
  "reading an %s adds and changes nothing, but for what was so before logs were linked",
  (name, schema, known) => {
    const kinds = kindsIn(schema, name);
    expect(kinds.length).toBeGreaterThan(15);
    expect(kinds.filter((kind) => !PLAIN.includes(kind.split(": ")[1] ?? ""))).toEqual(known);
  },
);

describe("and is seen where something would", () => {
  const text = z.string();
  test.each<[kind: string, schema: z.ZodType]>([
    ["default", text.default("")],
    ["prefault", text.prefault("")],
    ["catch", text.catch("")],
    ["overwrite", text.trim()],
    ["pipe", text.transform((each) => each)],
  ])("%s", (kind, schema) =>
    expect(kindsIn(z.strictObject({ a: z.array(z.union([schema, z.null()])) }), "x")).toContain(
      `x.a: ${kind}`,
    ),
  );
});

test.each([
  "demo-data/visits/otterfold-mill.signed.visit.json",
  "demo-data/office/otterfold-mill-2026.visit.json",
])("%s is read as it is written", (path) => {
  const { head, entries } = JSON.parse(readFileSync(path, "utf8"));
  expect(VisitHead.parse(head)).toEqual(head);
  expect(z.array(Entry).parse(entries)).toEqual(entries);
});
