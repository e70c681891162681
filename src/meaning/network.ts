import type { Hints } from "./hints.ts";

/**
 * The word network compiled from the grammar files: a flat finite-state graph with weights and tags. Two readers:
 * the parser (words -> tags) and the offline recogniser (its search graph). Plain JSON.
 */
export interface Arc {
  readonly from: number;
  readonly to: number;
  /** Lower-case word, `$file#rule` for a part (parser only), or null for an empty step. */
  readonly word: string | null;
  /** Natural logarithm of the arc's weight relative to its heaviest rival, at most 0. */
  readonly logp: number;
  /** Literal semantic tag (SISR "semantics/1.0-literals"), or null. */
  readonly tag: string | null;
}

export interface WordNetwork {
  readonly states: number;
  readonly start: number;
  readonly end: number;
  readonly arcs: readonly Arc[];
}

/** ARPAbet pronunciations of each word, the likeliest first: `co2 -> ["S IY OW T UW"]`. */
export type Lexicon = Readonly<Record<string, readonly string[]>>;

/** Words often heard in place of others: `heard` (one or more tokens) may mean `means`, at a cost in nats. */
export interface Confusion {
  readonly heard: readonly string[];
  readonly means: readonly string[];
  /** Words that must follow, which it leaves as they are. */
  readonly before: readonly string[];
  readonly cost: number;
}

/** A rule that the parser finds once for all that refer to it (`meta "shared"` in its file). `name` is `$file#rule`. */
export interface Part {
  readonly name: string;
  readonly network: WordNetwork;
}

/** One language, compiled: what the grammar folder becomes. */
export interface Language {
  readonly tag: string;
  /** One island of meaning; the parser looks for several in a phrase. */
  readonly island: WordNetwork;
  /** Rules that islands have in common, each a network of its own; one comes after those that it refers to. */
  readonly parts: readonly Part[];
  /** Whole utterances (islands and fillers in a row): the recogniser's search graph. */
  readonly utterance: WordNetwork;
  readonly lexicon: Lexicon;
  readonly confusions: readonly Confusion[];
  /** Words that carry no meaning between or inside islands ("uh", "we're reading"), with the cost of passing over them. */
  readonly fillers: readonly Filler[];
  readonly hints: Hints;
}

/** What the parser reads of a language, and what the recogniser does: the app loads the second only to listen. */
export type ParserLanguage = Pick<Language, "island" | "parts" | "confusions" | "fillers" | "hints">;
export type EarLanguage = Pick<Language, "tag" | "utterance" | "lexicon" | "hints">;

/** The small language of the start page: what its ear hears, and one piece of its sentence with what that means. */
export interface StartLanguage extends EarLanguage {
  readonly piece: WordNetwork;
}

export interface Filler {
  readonly words: readonly string[];
  /** In nats. */
  readonly cost: number;
}
