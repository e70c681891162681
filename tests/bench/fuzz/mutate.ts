import type { Chance } from "../../support/valve/chance.ts";

/** What readers stumble on: signs of JSON, CSV and ABNF, huge and strange numbers, names that every object has, odd characters. */
const ODD: readonly string[] = [
  ..."{}[]()<>\"':;,.=|$/\\#*+-_%&@!?0 \n\t\r".split(""),
  "1e999",
  "-0",
  "99999999999999999999",
  "0.1e-400",
  "NaN",
  "Infinity",
  "null",
  "true",
  '"__proto__":{"polluted":true},',
  '"constructor":{"prototype":{"polluted":true}},',
  "__proto__",
  "constructor",
  "hasOwnProperty",
  "toString",
  "\\u0000",
  "\\ud800",
  "\\x41",
  "\u0000",
  "\u001b[31m",
  "\u007f",
  "\u0085",
  "\u00a0",
  "\u00ad",
  "\u061c",
  "\u200b",
  "\u200d",
  "\u2028",
  "\u202e",
  "\u2066",
  "\ufeff",
  "\ufffd",
  "\uffff",
  "\ud800",
  "\udfff",
  "é",
  "e\u0301\u0301\u0301",
  "ﬀ",
  "K",
  "İ",
  "٣",
  "₂",
  "½",
  "－",
  "🔥",
  "👩‍🔧",
  "=1+1",
  "@SUM(A1)",
  "<script>",
  "//",
  "/*",
  "*/",
  "<0-9999999>",
  "$x",
  "$<a.abnf#b>",
  "=>",
  "\r\n",
];

/** Deep, wide and long: what a stack or a memory stumbles on. */
const LARGE: readonly (() => string)[] = [
  () => "[".repeat(5000),
  () => '{"a":'.repeat(300),
  () => "(".repeat(3000),
  () => "a".repeat(20_000),
  () => "9".repeat(5000),
  () => '"'.repeat(2000),
  () => "[{}],".repeat(1000),
  () => "nine ".repeat(500),
  () => "\\".repeat(3001),
  () => " ".repeat(5000),
];

export function below(chance: Chance, most: number): number {
  return Math.floor(chance.from(0, most));
}

export function pick<T>(chance: Chance, values: readonly T[]): T {
  const value = values[below(chance, values.length)];
  if (value === undefined) throw new RangeError("Expected something to choose from, found nothing.");
  return value;
}

/** One to four changes to a text, each of a kind drawn by chance; `others` are what it is spliced with. */
export function broken(chance: Chance, text: string, others: readonly string[]): string {
  let out = text;
  for (let left = 1 + below(chance, 4); left > 0; left -= 1) out = changed(chance, out, others);
  return out;
}

function changed(chance: Chance, text: string, others: readonly string[]): string {
  const at = below(chance, text.length + 1);
  const length = 1 + below(chance, chance.is(0.8) ? 8 : text.length + 1);
  const [before, here, after] = [text.slice(0, at), text.slice(at, at + length), text.slice(at + length)];
  switch (below(chance, 10)) {
    case 0:
      return before + after;
    case 1:
      return before;
    case 2:
      return before + here + here + after;
    case 3: {
      const other = pick(chance, others);
      return before + other.slice(below(chance, other.length + 1));
    }
    case 4:
    case 5:
      return before + pick(chance, ODD) + here + after;
    case 6:
      return before + pick(chance, ODD) + after;
    case 7:
      return before + String.fromCharCode(below(chance, 0x10000)) + text.slice(at + 1);
    case 8:
      return swapped(chance, text);
    default:
      return chance.is(0.15)
        ? before + pick(chance, LARGE)() + after
        : before + here + pick(chance, ODD) + after;
  }
}

const TOKENS = /[\p{L}\p{N}_.-]+|\s+|[^\p{L}\p{N}\s]/gu;

/** Two tokens change places. */
function swapped(chance: Chance, text: string): string {
  const tokens = text.match(TOKENS) ?? [];
  if (tokens.length < 2) return text;
  const [a, b] = [below(chance, tokens.length), below(chance, tokens.length)];
  const [first = "", second = ""] = [tokens[a], tokens[b]];
  tokens[a] = second;
  tokens[b] = first;
  return tokens.join("");
}

/** Text of nothing but chance: letters of any script, signs, halves of surrogate pairs. */
export function noise(chance: Chance, most: number): string {
  return Array.from({ length: below(chance, most) }, () =>
    chance.is(0.3) ? pick(chance, ODD) : String.fromCharCode(below(chance, chance.is(0.7) ? 0x80 : 0x10000)),
  ).join("");
}

/** Bytes with some of them flipped, cut, doubled or put in. */
export function brokenBytes(chance: Chance, bytes: Uint8Array): Uint8Array {
  let out: number[] = [...bytes];
  for (let left = 1 + below(chance, 4); left > 0; left -= 1) {
    // The head of a file says most.
    const at = below(chance, chance.is(0.5) ? Math.min(64, out.length + 1) : out.length + 1);
    switch (below(chance, 6)) {
      case 0:
        out = out.slice(0, at);
        break;
      case 1:
        out.splice(at, 1 + below(chance, 16));
        break;
      case 2:
        out.splice(at, 0, ...out.slice(at, at + 1 + below(chance, 16)));
        break;
      case 3:
        out[at] = (out[at] ?? 0) ^ (1 << below(chance, 8));
        break;
      case 4:
        out.splice(at, 4, 255, 255, 255, chance.is(0.5) ? 255 : 127);
        break;
      default:
        out.splice(at, 0, below(chance, 256));
    }
  }
  return Uint8Array.from(out);
}
