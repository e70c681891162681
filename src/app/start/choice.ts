import type { StartMeaning } from "../../meaning/start.ts";
import { wordsOf } from "../../meaning/words.ts";
import type { Fuel } from "../../measure/firing.ts";
import { FUEL_NAMES } from "../../record/wording.ts";
import type { Sheet } from "../../visit/sheet.ts";
import { fuelsOf, type SheetRow } from "../sheets/order.ts";

/** What is chosen for a visit so far; null where nothing is. */
export interface StartChoice {
  readonly sheet: Sheet | "none" | null;
  readonly fuel: Fuel | null;
}

/** What a sentence came to. */
export interface StartStep {
  readonly choice: StartChoice;
  /** What was understood, and what is asked for, if anything. */
  readonly answer: string;
  /** All is said and nothing is in doubt: the visit starts. */
  readonly starts: boolean;
}

/**
 * What is chosen before anybody chose: the sheet of the last visit, unless it is for propane alone. A gas is chosen only
 * where the sheet has no other.
 */
export function firstChoice(rows: readonly SheetRow[]): StartChoice {
  const last = rows.find(({ isLast }) => isLast)?.sheet ?? null;
  return last && fuelsOf(last).includes("natural-gas") ? withSheet(last) : { sheet: null, fuel: null };
}

/** The choice once a sheet is taken: the gas before it does not go over to another sheet. */
export function withSheet(sheet: Sheet | "none"): StartChoice {
  const [only, ...more] = fuelsOf(sheet === "none" ? null : sheet);
  return { sheet, fuel: more.length === 0 ? (only ?? null) : null };
}

/** The choice among what is here now: a sheet may have been brought in anew, or be gone, since it was chosen. */
export function renewed({ sheet, fuel }: StartChoice, rows: readonly SheetRow[]): StartChoice {
  if (sheet === null || sheet === "none") return { sheet, fuel };
  const now = rows.find((row) => row.sheet.id === sheet.id)?.sheet;
  if (!now) return { sheet: null, fuel: null };
  return fuel !== null && fuelsOf(now).includes(fuel) ? { sheet: now, fuel } : withSheet(now);
}

/** What is still to be chosen, the sheet first; null where nothing is. */
export function missing({ sheet, fuel }: StartChoice): "sheet" | "fuel" | null {
  if (sheet === null) return "sheet";
  return fuel === null ? "fuel" : null;
}

/**
 * Takes a sentence. It starts a visit only with "go", and only where all of it was understood.
 * @param sure whether what was heard may be acted upon; else it is shown, and "go" alone is asked for
 */
export function takeSentence(
  before: StartChoice,
  rows: readonly SheetRow[],
  meaning: StartMeaning,
  sure: boolean,
): StartStep {
  const found = sheetSaid(rows, meaning);
  // A gas that was said before any sheet waits for its sheet.
  const fuel = meaning.fuel ?? (before.sheet === null ? before.fuel : null);
  if (found.kind === "problem") {
    const choice = before.sheet === null ? { ...before, fuel } : before;
    return { choice, answer: found.answer, starts: false };
  }
  const base = found.kind === "sheet" ? withSheet(found.sheet) : before;
  const number = rows.find(({ sheet }) => sheet === base.sheet)?.number;
  if (fuel !== null && base.sheet !== null && base.sheet !== "none" && !fuelsOf(base.sheet).includes(fuel)) {
    const choice = { ...base, fuel: null };
    const answer = `Sheet ${number} has no limits for ${FUEL_NAMES[fuel].toLowerCase()}. ${asks(choice)}`;
    return { choice, answer, starts: false };
  }
  const choice = { ...base, fuel: fuel ?? base.fuel };
  const isOnlyGo = found.kind === "nothing" && meaning.fuel === null;
  if (isOnlyGo && !meaning.go) return { choice, answer: `Not understood. ${asks(choice)}`, starts: false };
  const starts = meaning.go && missing(choice) === null && (sure || isOnlyGo);
  return { choice, answer: `${named(choice, number)} ${starts ? "" : asks(choice)}`.trim(), starts };
}

type Found =
  | { readonly kind: "nothing" }
  | { readonly kind: "sheet"; readonly sheet: Sheet | "none" }
  | { readonly kind: "problem"; readonly answer: string };

/** The sheet by its number, or by words of its title. */
function sheetSaid(rows: readonly SheetRow[], { sheet, rest }: StartMeaning): Found {
  if (sheet !== null && rest.length > 0) {
    return { kind: "problem", answer: `Not understood: “${rest.join(" ")}”. Say it once more.` };
  }
  if (sheet === "none") return { kind: "sheet", sheet };
  if (sheet !== null) {
    const row = rows.find(({ number }) => number === sheet);
    return row
      ? { kind: "sheet", sheet: row.sheet }
      : { kind: "problem", answer: `There is no sheet ${sheet}: they go from 1 to ${rows.length}.` };
  }
  if (rest.length === 0) return { kind: "nothing" };
  return byTitle(rows, rest);
}

/** The one sheet whose title has all these words. */
function byTitle(rows: readonly SheetRow[], rest: readonly string[]): Found {
  const having = rows.filter(({ sheet }) => {
    const words = new Set(titleWords(sheet.title));
    return rest.every((word) => words.has(asInTitle(word)));
  });
  const [one, ...more] = having;
  if (!one) return { kind: "problem", answer: `No sheet is called “${rest.join(" ")}”.` };
  if (more.length === 0) return { kind: "sheet", sheet: one.sheet };
  const numbers = having.map(({ number }) => String(number));
  return { kind: "problem", answer: `Which sheet: ${numbers.slice(0, -1).join(", ")} or ${numbers.at(-1)}?` };
}

/** A title as the sentence is split: numerals are words, and so "35" is found by "thirty five". */
function titleWords(title: string): string[] {
  return wordsOf(title).map(({ word }) => asInTitle(word));
}

/** Units as titles abbreviate them, for the words that are said. */
const ABBREVIATED: ReadonlyMap<string, string> = new Map([
  ["kilowatt", "kw"],
  ["kilowatts", "kw"],
  ["millibar", "mbar"],
  ["millibars", "mbar"],
]);

function asInTitle(word: string): string {
  return ABBREVIATED.get(word) ?? word;
}

function named({ sheet, fuel }: StartChoice, number: number | undefined): string {
  const of = sheet === null ? [] : [sheet === "none" ? "Without a sheet" : `Sheet ${number}, ${sheet.title}`];
  const gas = fuel === null ? [] : [FUEL_NAMES[fuel].toLowerCase()];
  const all = [...of, ...gas].join("; ");
  return all === "" ? "" : `${all.charAt(0).toUpperCase()}${all.slice(1)}.`;
}

/** Asks for just what is missing. */
function asks(choice: StartChoice): string {
  switch (missing(choice)) {
    case "sheet":
      return "Which sheet?";
    case "fuel":
      return "Which gas?";
    case null:
      return "Say “go” to start.";
  }
}

/** The rows whose titles have all words of a search, in any case and without accents. */
export function found(rows: readonly SheetRow[], search: string): readonly SheetRow[] {
  const words = folded(search).split(/\s+/).filter(Boolean);
  if (words.length === 0) return rows;
  return rows.filter(({ sheet, number }) => {
    const text = `${number} ${folded(`${sheet.title} ${sheet.source.document}`)}`;
    return words.every((word) => text.includes(word));
  });
}

function folded(text: string): string {
  return text.normalize("NFD").replace(/\p{M}/gu, "").toLowerCase();
}
