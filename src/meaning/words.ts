import { spokenNumber } from "../measure/show.ts";

/** One word of a phrase as the grammar spells it, and where in the text it came from. */
export interface Word {
  readonly word: string;
  /** Character offsets in the original text. */
  readonly start: number;
  readonly end: number;
  /** A comma, full stop or the like stands before it. */
  readonly afterBreak: boolean;
}

// Times of day, dates, telephone and part numbers are one token that no grammar word equals; fractions are kept whole.
const TOKEN =
  /\d+(?:[:-]\d+)+|\d+\/\d+|\d{1,3}(?:,\d{3})+(?:\.\d+)?|\d+[.,]\d+|\.\d+|\d+|co[2₂]|o[2₂]|(?:[a-z]\.){2,}|[a-z]+(?:['’][a-z]+)?|[%"°½¼¾]|[,.;!?]|-(?=\.?\d)|\S/giu;
const BREAK = /^[,.;!?]$/;
const NOISE = /^[=:()[\]{}*_~/\\|<>+#&@^-]$/;

/**
 * Splits a phrase into grammar words: lower case, numerals spelled out ("9.2" -> nine point two; "9,2" too; "1,250" ->
 * one thousand two hundred fifty), symbols as words of their own. Compatibility forms (₂, full width) are folded first.
 */
export function wordsOf(text: string): Word[] {
  const out: Word[] = [];
  let afterBreak = false;
  for (const hit of text.matchAll(TOKEN)) {
    const start = hit.index;
    const end = start + hit[0].length;
    if (BREAK.test(hit[0])) {
      afterBreak = true;
      continue;
    }
    if (NOISE.test(hit[0]) && hit[0] !== "-") continue;
    const before = start === 0 ? " " : (text[start - 1] ?? " ");
    for (const word of spell(hit[0], before)) {
      out.push({ word, start, end, afterBreak });
      afterBreak = false;
    }
  }
  return out;
}

function spell(token: string, before: string): readonly string[] {
  if (/^[\d.]/.test(token)) return spellNumeral(token);
  if (token === "-") return /[\s=:(]/.test(before) ? ["minus"] : [];
  if (/^(?:[a-z]\.)+$/i.test(token)) return [token.replaceAll(".", "").toLowerCase()];
  return [token.normalize("NFKC").toLowerCase().replaceAll("’", "'")];
}

function spellNumeral(token: string): readonly string[] {
  if (/[:/-]/.test(token)) return [token];
  const plain = /^\d{1,3}(?:,\d{3})+/.test(token) ? token.replaceAll(",", "") : token.replace(",", ".");
  const [whole = "", decimals] = plain.split(".");
  // Longer than any reading: a serial or telephone number, not a value.
  if (whole.length > 5) return [token];
  const head =
    whole === ""
      ? []
      : /^0\d/.test(whole)
        ? [...whole].flatMap((digit) => spokenNumber(Number(digit)))
        : spokenNumber(Number(whole)).split(" ");
  const tail = decimals === undefined ? [] : ["point", ...[...decimals].map((d) => spokenNumber(Number(d)))];
  return [...head, ...tail];
}
