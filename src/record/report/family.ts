import { type Covers, coverageOf } from "./coverage.ts";

/** The code points that all of these fonts have glyphs for. */
export function coveredByAll(fonts: readonly Uint8Array[]): Covers {
  const each = fonts.map(coverageOf);
  return (codePoint) => each.every((covers) => covers(codePoint));
}
