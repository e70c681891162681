/** Characters that make a spreadsheet read a cell as a formula (OWASP, "CSV Injection"), full-width ones with them. */
const SIGN = "[=+\\-@＝＋－＠]";

/**
 * A sign where a cell may begin: at the start, or after what some spreadsheet takes for the end of a cell or row whatever
 * stands in quotes (semicolon, bar, tab, line end); blanks, unseen characters and apostrophes before the sign do not count.
 */
const AT_START = new RegExp(`(^|[;|\\t\\r\\n])([\\s\\p{Cf}]*)('*)(?=${SIGN})`, "gu");

/** A first character that is skipped before the next one is looked at. */
const SKIPPED_FIRST = /^'*[\t\r\n]/;

/**
 * A text that no spreadsheet runs: an apostrophe is put before each sign that could begin a formula, and before a tab or
 * line end that comes first. Of apostrophes that stand there already there is then one more, so that taking one away gives
 * the exact words back. Numbers are no text: a pressure below zero stays a number.
 */
export function harmless(text: string): string {
  const signs = text.replace(AT_START, "$1$2'$3");
  return SKIPPED_FIRST.test(signs) ? `'${signs}` : signs;
}

/** Whether a spreadsheet could run a text. */
export function isFormula(text: string): boolean {
  return harmless(text) !== text;
}

/** The rule in words, for who reads a table with another program. */
export const HARMLESS_RULE =
  "A text that a spreadsheet could run as a formula has an apostrophe before the sign (=, +, -, @ or their full-width forms) that could begin it: at the start of the text or after a semicolon, bar, tab or line end, blanks skipped. A tab or line end that comes first has one before it. Take one apostrophe away at each such place for the exact words. Numbers are never changed.";
