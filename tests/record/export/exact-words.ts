/**
 * The exact words of a text in a table, by the rule that its metadata tells its readers: one apostrophe away before a tab or line
 * end that comes first, and before a sign at the start or after a semicolon, bar, tab or line end, blanks skipped.
 */
export function exactWords(text: string): string {
  return text
    .replace(/^'('*[\t\r\n])/, "$1")
    .replace(/(^|[;|\t\r\n])([\s\p{Cf}]*)'('*[=+\-@＝＋－＠])/gu, "$1$2$3");
}
