/** Characters that make a spreadsheet read a cell as a formula (OWASP, "CSV Injection"), full-width ones with them. */
const SIGNS = "=+-@＝＋－＠";

/**
 * Where a cell may begin: at the start, or after what some spreadsheet takes for the end of a cell or row whatever stands in
 * quotes (semicolon, bar, tab, line end), with all that is skipped before a sign: blanks, unseen characters, apostrophes. Each
 * character is looked at once, however long and hostile the text.
 */
const BEGINNING = /((?:[;|\t\r\n]|^)[\s\p{Cf}]*)('*)/gu;

/** A first character that is skipped before the next one is looked at. */
const SKIPPED_FIRST = /^'*[\t\r\n]/;

/**
 * A text that no spreadsheet runs: an apostrophe is put before each sign that could begin a formula, and before a tab or
 * line end that comes first. Of apostrophes that stand there already there is then one more, so that taking one away gives
 * the exact words back. Numbers are no text: a pressure below zero stays a number.
 */
export function harmless(text: string): string {
  const signs = text.replace(BEGINNING, (all, before: string, apostrophes: string, at: number) =>
    isSign(text[at + all.length]) ? `${before}'${apostrophes}` : all,
  );
  return SKIPPED_FIRST.test(signs) ? `'${signs}` : signs;
}

function isSign(character: string | undefined): boolean {
  return character !== undefined && SIGNS.includes(character);
}

/** Whether a spreadsheet could run a text. */
export function isFormula(text: string): boolean {
  return harmless(text) !== text;
}

/** The rule in words, for who reads a table with another program. */
export const HARMLESS_RULE =
  "A text that a spreadsheet could run as a formula has an apostrophe before the sign (=, +, -, @ or their full-width forms) that could begin it: at the start of the text or after a semicolon, bar, tab or line end, blanks skipped. A tab or line end that comes first has one before it. Take one apostrophe away at each such place for the exact words. Numbers are never changed.";
