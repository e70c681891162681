/** Control characters (tabs and line ends apart), halves of surrogate pairs and what Unicode has for no character. */
const UNPRINTABLE = /[\p{Cs}\p{Noncharacter_Code_Point}]|(?![\t\n\r])\p{Cc}/gu;

/**
 * Text as other programs can take it: what no XML 1.0 file (section 2.2), no CSV (RFC 4180, section 2) and no calendar (RFC
 * 5545, section 3.3.11) may hold becomes U+FFFD, one for one, so that it is seen that something stood there. The bundle
 * keeps the exact characters.
 */
export function printable(text: string): string {
  return text.replace(UNPRINTABLE, "\uFFFD");
}
