import { quoted } from "../measure/quoted.ts";
import type { Lexicon } from "./network.ts";
import { GrammarError, type GrammarProblem } from "./problem.ts";

/** The 39 ARPAbet phones of the CMU pronouncing dictionary, without stress. */
const PHONES: ReadonlySet<string> = new Set(
  "AA AE AH AO AW AY B CH D DH EH ER EY F G HH IH IY JH K L M N NG OW OY P R S SH T TH UH UW V W Y Z ZH".split(
    " ",
  ),
);

/**
 * Reads a pronouncing lexicon in the form of the CMU dictionary: a word, then its phones; a second pronunciation as
 * `word(2)`; `#` starts a comment. Throws GrammarError with every bad line.
 */
export function readLexicon(file: string, source: string): Lexicon {
  // A map, for "constructor" is a word too.
  const out = new Map<string, string[]>();
  const problems: GrammarProblem[] = [];
  source.split("\n").forEach((raw, i) => {
    const [head, ...phones] = raw.replace(/#.*/, "").trim().split(/\s+/);
    if (!head) return;
    const wrong = phones.filter((phone) => !PHONES.has(phone));
    if (phones.length === 0 || wrong.length > 0) {
      problems.push({
        file,
        line: i + 1,
        message: `${quoted(head)}: expected ARPAbet phones, found ${quoted(wrong.join(" "))}`,
      });
      return;
    }
    const word = head.replace(/\(\d+\)$/, "").toLowerCase();
    out.set(word, [...(out.get(word) ?? []), phones.join(" ")]);
  });
  if (problems.length > 0) throw new GrammarError(problems);
  return Object.fromEntries(out);
}
