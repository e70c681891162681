import { type Covers, coverageOf } from "./coverage.ts";

/** The code points of the basic plane that all of these fonts have glyphs for. */
export function coveredByAll(fonts: readonly Uint8Array[]): Covers {
  const each = fonts.map(coverageOf);
  // Beyond that a sign is two units of a text, and the setting of long words would go between them.
  return (codePoint) => codePoint <= 0xffff && each.every((covers) => covers(codePoint));
}
