/** Octets in a line, its end left out (RFC 5545, section 3.1). */
const MOST_OCTETS = 75;

/**
 * Content lines folded at 75 octets of UTF-8, never inside a character (RFC 5545, section 3.1). Lines that are folded already
 * are folded anew: the calendar library counts letters, so that what is not ASCII comes out too long.
 */
export function foldLines(calendar: string): string {
  return calendar
    .replaceAll("\r\n ", "")
    .split("\r\n")
    .map((line) => foldLine(line))
    .join("\r\n");
}

function foldLine(line: string): string {
  let folded = "";
  let octets = 0;
  for (const character of line) {
    const size = octetsOf(character.codePointAt(0) ?? 0);
    if (octets + size > MOST_OCTETS) {
      folded += "\r\n ";
      octets = 1;
    }
    folded += character;
    octets += size;
  }
  return folded;
}

/** Octets of a character in UTF-8 (RFC 3629, section 3). */
function octetsOf(code: number): number {
  if (code < 0x80) return 1;
  if (code < 0x800) return 2;
  return code < 0x10000 ? 3 : 4;
}
