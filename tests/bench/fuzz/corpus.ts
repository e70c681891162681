import { readdirSync, readFileSync } from "node:fs";
import { readLanguageFolder } from "../../../src/cli/language.ts";
import { corpora, corpusLines } from "../../support/corpus.ts";
import { noteLines } from "../../support/notes.ts";

const DEMO = new URL("../../../demo-data/", import.meta.url);

function textsIn(folder: string): string[] {
  return readdirSync(new URL(folder, DEMO))
    .filter((name) => name.endsWith(".json"))
    .map((name) => readFileSync(new URL(`${folder}${name}`, DEMO), "utf8"));
}

/** Real files of every kind, as text. */
export const SHEETS = textsIn("sheets/");
export const AWKWARD = textsIn("awkward/");
const VISITS = [...textsIn("visits/"), ...textsIn("office/")];

/** Stretches of the demo's visits, so that most inputs are short: entries must go up from 0, so each is a head. */
export const BUNDLES: readonly string[] = VISITS.flatMap((text) =>
  [1, 3, 6, 12].map((entries) => {
    const visit: { entries: unknown[] } = JSON.parse(text);
    return JSON.stringify({ ...visit, entries: visit.entries.slice(0, entries) }, null, entries > 3 ? 0 : 2);
  }),
);
/** Some whole. */
export const WHOLE = VISITS;

export const GRAMMARS: readonly (readonly [file: string, text: string])[] = Object.entries(
  readLanguageFolder(),
);

export const PHRASES: readonly string[] = corpora().flatMap((file) =>
  corpusLines(file).map(({ phrase }) => phrase),
);
export const NOTES: readonly string[] = noteLines("notes.txt").map(({ text }) => text);
