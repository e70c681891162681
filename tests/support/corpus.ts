import { readdirSync, readFileSync } from "node:fs";

const FOLDER = new URL("../corpus/", import.meta.url);

/** One line of tests/corpus: a phrase, and what it means in the short notation ("-" is nothing). */
export interface CorpusLine {
  readonly line: number;
  readonly phrase: string;
  readonly expected: string;
}

/** The names of the corpora of phrases. The notes' have a folder and a notation of their own. */
export const corpora = (): string[] => readdirSync(FOLDER).filter((name) => name.endsWith(".txt"));

/** The lines of one corpus, without its comments. */
export function corpusLines(file: string): CorpusLine[] {
  return readFileSync(new URL(file, FOLDER), "utf8")
    .split("\n")
    .flatMap((raw, i) => {
      const cut = raw.lastIndexOf(" | ");
      if (raw.startsWith("#") || cut < 0) return [];
      return [{ line: i + 1, phrase: raw.slice(0, cut), expected: raw.slice(cut + 3) }];
    });
}
