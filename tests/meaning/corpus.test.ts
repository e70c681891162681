import { readdirSync, readFileSync } from "node:fs";
import { describe, expect, it } from "vitest";
import { loadLanguage } from "../../src/cli/language.ts";
import { createParser } from "../../src/meaning/parser.ts";
import { shortItem, shortMeaning } from "../support/short.ts";

const FOLDER = new URL("../corpus/", import.meta.url);
const parser = createParser(loadLanguage());

function casesOf(file: string): { line: number; phrase: string; expected: string }[] {
  return readFileSync(new URL(file, FOLDER), "utf8")
    .split("\n")
    .flatMap((raw, i) => {
      const cut = raw.lastIndexOf(" | ");
      if (raw.startsWith("#") || cut < 0) return [];
      return [{ line: i + 1, phrase: raw.slice(0, cut), expected: raw.slice(cut + 3) }];
    });
}

// The notes have a folder and a notation of their own.
for (const file of readdirSync(FOLDER).filter((name) => name.endsWith(".txt"))) {
  describe(`tests/corpus/${file}`, () => {
    it.each(casesOf(file))("$line: $phrase", ({ phrase, expected }) => {
      const meaning = parser.parse(phrase);
      const asked = expected.endsWith("?..") && meaning.unsure.length > 0;
      const found = asked ? [...meaning.items.map(shortItem), "?.."].join("; ") : shortMeaning(meaning);
      expect(found, [...parser.trace(phrase), JSON.stringify(meaning)].join("\n")).toBe(expected);
    });
  });
}
