import { describe, expect, it } from "vitest";
import { loadLanguage } from "../../src/cli/language.ts";
import { createParser } from "../../src/meaning/parser.ts";
import { corpora, corpusLines } from "../support/corpus.ts";
import { shortItem, shortMeaning } from "../support/short.ts";

const parser = createParser(loadLanguage());

for (const file of corpora()) {
  describe(`tests/corpus/${file}`, () => {
    it.each(corpusLines(file))("$line: $phrase", ({ phrase, expected }) => {
      const meaning = parser.parse(phrase);
      const asked = expected.endsWith("?..") && meaning.unsure.length > 0;
      const found = asked ? [...meaning.items.map(shortItem), "?.."].join("; ") : shortMeaning(meaning);
      expect(found, [...parser.trace(phrase), JSON.stringify(meaning)].join("\n")).toBe(expected);
    });
  });
}
