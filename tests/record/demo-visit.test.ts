import { readFileSync } from "node:fs";
import { expect, test } from "vitest";
import { loadLanguage } from "../../src/cli/language.ts";
import { NO_CONTEXT } from "../../src/meaning/context.ts";
import { createParser } from "../../src/meaning/parser.ts";
import { exportVisit, importVisit } from "../../src/record/bundle.ts";
import type { Visit } from "../../src/visit/visit.ts";

// The finished bundle of the demo is what the dictated text gives, not a file written beside it.

const text = (name: string) => readFileSync(`demo-data/visits/otterfold-mill.${name}`, "utf8");

function bundle(): Visit {
  const read = importVisit(text("visit.json"));
  if (!read.ok) throw new Error(JSON.stringify(read.problems));
  return read.visit;
}

const dictated = text("txt")
  .trimEnd()
  .split("\n")
  .map((line) => line.split("\t"));

test("the bundle is written as the program writes it", () => {
  expect(exportVisit(bundle())).toBe(text("visit.json"));
});

test("each of its entries was dictated, at its time", () => {
  for (const { at, phrase } of bundle().entries) expect(dictated).toContainEqual([at, phrase]);
});

test("each dictated phrase that has something to log is in it", () => {
  const parser = createParser(loadLanguage());
  const logged = new Set(bundle().entries.map(({ at }) => at));
  const asked = ["which way", "how long left"];
  for (const [at, phrase] of dictated) {
    const { items, unsure } = parser.parse(phrase ?? "", NO_CONTEXT);
    expect([phrase, unsure]).toEqual([phrase, []]);
    expect(items.length).toBeGreaterThan(0);
    expect([phrase, logged.has(at ?? "")]).toEqual([phrase, !asked.includes(phrase ?? "")]);
  }
});
