import { spokenNumber } from "../measure/show.ts";

/** One word of a phrase as the grammar spells it, and where in the text it came from. */
export interface Word {
  readonly word: string;
  /** Character offsets in the original text. */
  readonly start: number;
  readonly end: number;
  /** A comma, full stop or the like stands before it. */
  readonly afterBreak: boolean;
  /** A question mark ends its clause. */
  readonly asked: boolean;
  /** It goes on with the numeral of the word before it ("85" is one numeral and two words). */
  readonly within: boolean;
}

// Times of day, dates, telephone and part numbers are one token each; fractions are kept whole.
const TOKEN =
  /\d0s\b|\d+(?:\.\d+){2,}|\d+(?=-\d+\/\d)|\d+(?:[:-]\d+)+|\d+\/\d+|\d{1,3}(?:,\d{3})+(?:\.\d+)?|\d+[.,]\d+|\.\d+|\d+|co[2₂]|o[2₂]|m[3³]|[µμ]a|(?:[a-z]\.){2,}|[a-z]+(?:['’][a-z]+)?|[%"°½¼¾]|[,.;!?]|[-+](?=[.\d½¼¾])|\S/giu;
/** A numeral that is no value: a time, a date, a telephone or serial number, "9/2". */
const UNREADABLE = "#";
const BREAK = /^[,.;!?]$/;
/** Fractions that are spelled out in confusions.txt. */
const FRACTION = /^(?:1\/(?:[2-68]|10|12|16)|2\/3|3\/4|[357]\/8|3\/10|5\/12)$/;
const PLAIN = /^[a-z]+$/i;
const NOISE = /^[=:()[\]{}*_~/\\|<>+#&@^-]$/;

/**
 * Splits a phrase into grammar words: lower case, numerals spelled out ("9.2" -> nine point two; "9,2" too; "1,250" ->
 * one thousand two hundred fifty), symbols as words of their own. Compatibility forms (₂, full width) are folded first.
 */
export function wordsOf(text: string): Word[] {
  const out: Word[] = [];
  let afterBreak = false;
  let clause = 0;
  const questions: [from: number, to: number][] = [];
  for (const hit of text.matchAll(TOKEN)) {
    const start = hit.index;
    const end = start + hit[0].length;
    if (BREAK.test(hit[0])) {
      if (hit[0] === "?") questions.push([clause, out.length]);
      afterBreak = true;
      clause = out.length;
      continue;
    }
    // "9.2/40", "9.2 / 40"
    const isSlash =
      hit[0] === "/" && /[\d%]\s*$/.test(text.slice(0, start)) && /^\s*\d/.test(text.slice(end));
    if (NOISE.test(hit[0]) && hit[0] !== "-" && hit[0] !== "+" && !isSlash) continue;
    const before = start === 0 ? " " : (text[start - 1] ?? " ");
    spell(hit[0], before).forEach((word, i) => {
      out.push({ word, start, end, afterBreak, asked: false, within: i > 0 });
      afterBreak = false;
    });
  }
  if (questions.length === 0) return out;
  return out.map((word, i) => ({ ...word, asked: questions.some(([from, to]) => i >= from && i < to) }));
}

function spell(token: string, before: string): readonly string[] {
  if (token === "/") return [token];
  if (PLAIN.test(token)) return [token.toLowerCase()];
  if (FRACTION.test(token)) return [token];
  if (/^[\d.]/.test(token)) return spellNumeral(token);
  if (token === "-") return /[\s=:(]/.test(before) ? ["minus"] : [];
  if (token === "+") return /[\s=:(]/.test(before) ? ["plus"] : [];
  if (/^(?:[a-z]\.)+$/i.test(token)) return [token.replaceAll(".", "").toLowerCase()];
  return [token.normalize("NFKC").toLowerCase().replaceAll("’", "'").replace("\u2044", "/")];
}

function spellNumeral(token: string): readonly string[] {
  if (/[:/s-]|\..*\./.test(token)) return [UNREADABLE];
  const plain = /^\d{1,3}(?:,\d{3})+/.test(token) ? token.replaceAll(",", "") : token.replace(",", ".");
  const [whole = "", decimals] = plain.split(".");
  // Longer than any reading: a serial or telephone number, not a value.
  if (whole.length > 5) return [UNREADABLE];
  const head =
    whole === ""
      ? []
      : /^0\d/.test(whole)
        ? [...whole].flatMap((digit) => spokenNumber(Number(digit)))
        : spokenNumber(Number(whole)).split(" ");
  const tail = decimals === undefined ? [] : ["point", ...[...decimals].map((d) => spokenNumber(Number(d)))];
  return [...head, ...tail];
}
