import nlp from "compromise/two";
import { isOfTrade, TRADE_WORDS } from "./trade-words.ts";

// Once and for all: with each text it takes as long as the text does.
nlp.addWords(TRADE_WORDS);

/** One word of a note, where it stands (UTF-16 units), and what part of speech it is taken for. */
export interface Word {
  /** In lower case, with straight apostrophes. */
  readonly norm: string;
  /** As it stands. */
  readonly text: string;
  readonly from: number;
  readonly to: number;
  /** Tags of the tagger: "Noun", "Verb", "Person" … */
  readonly tags: ReadonlySet<string>;
  /** What stands before it since the word before: "" (only blanks), "," or "." (the end of a sentence, a new line). */
  readonly stop: "" | "," | ".";
}

const WORD = /[\p{L}\p{N}][\p{L}\p{M}\p{N}]*(?:[.,'’/%-][\p{L}\p{M}\p{N}]+)*/gu;

/** The words of a text in lower case, untagged: that is quick. */
export function plainWords(text: string): readonly string[] {
  return [...text.matchAll(WORD)].map(([word]) => normal(word));
}

/** The words of a text. */
export function wordsOf(text: string): readonly Word[] {
  const tags = tagsOf(text);
  let last = 0;
  return [...text.matchAll(WORD)].map((match): Word => {
    const [found] = match;
    const from = match.index;
    const between = text.slice(last, from);
    const isFirst = last === 0;
    const norm = normal(found);
    last = from + found.length;
    return {
      norm,
      text: found,
      from,
      to: last,
      tags: isOfTrade(norm) ? new Set([...tags(from, last), "Noun"]) : tags(from, last),
      stop: isFirst || /[.;!?\n\r]/.test(between) ? "." : /[,:()–—]|\s-\s/.test(between) ? "," : "",
    };
  });
}

function normal(word: string): string {
  return word.toLowerCase().replaceAll("’", "'");
}

interface Term {
  readonly offset: { readonly start: number; readonly length: number };
  readonly tags: readonly string[];
}

/** The tagger's words need not be ours: each of ours has the tags of all that begin in it. */
function tagsOf(text: string): (from: number, to: number) => ReadonlySet<string> {
  const sentences: readonly { readonly terms: readonly Term[] }[] = nlp(text).json({ offset: true });
  const terms = sentences.flatMap((sentence) => sentence.terms);
  let next = 0;
  return (from, to) => {
    const found = new Set<string>();
    for (; next < terms.length; next++) {
      const term = terms[next];
      if (!term || term.offset.start >= to) break;
      if (term.offset.start >= from) for (const tag of term.tags) found.add(tag);
    }
    return found;
  };
}
