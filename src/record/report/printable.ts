import { GRAPHEMES, NO_SIGN } from "../../measure/harmless.ts";
import type { Covers } from "./coverage.ts";

/** How many signs may be set upon a letter: more would run over the lines above and below. */
const MOST_MARKS = 3;

/** Joiners and choices of form that have no shape of their own. */
const SHAPELESS = /\u200C|\u200D|[\uFE00-\uFE0F]/gu;

/** A text in the signs that the fonts have: each letter that they lack, as a reader counts letters, is one visible sign. */
export function printable(text: string, covers: Covers): string {
  if ([...text].every((sign) => isPlain(sign))) return text;
  return [...GRAPHEMES.segment(text)]
    .map(({ segment }) => {
      const signs = [...segment.replace(SHAPELESS, "")];
      const isThere =
        signs.length > 0 &&
        signs.length <= 1 + MOST_MARKS &&
        signs.every((sign) => covers(sign.codePointAt(0) ?? 0));
      return isThere ? signs.join("") : NO_SIGN;
    })
    .join("");
}

function isPlain(sign: string): boolean {
  return sign >= " " && sign <= "~";
}
