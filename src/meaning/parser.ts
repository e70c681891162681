import { quantityOf } from "../measure/quantity.ts";
import { shownValue } from "../measure/show.ts";
import { assemble } from "./assemble.ts";
import { type Context, type Known, NO_CONTEXT } from "./context.ts";
import { coversOf } from "./cover.ts";
import type { Vocabulary } from "./cuts.ts";
import { doubt } from "./doubt.ts";
import type { Heard, Reread } from "./draft.ts";
import { type FoldedLanguage, foldLanguage } from "./folded.ts";
import type { Found } from "./found.ts";
import type { Graph } from "./graph.ts";
import type { Meaning } from "./item.ts";
import { indexConfusions, type Lattice, latticeOf } from "./lattice.ts";
import type { ParserLanguage } from "./network.ts";
import { unpaired } from "./pairs.ts";
import { addParts, indexParts, type PartIndex } from "./parts.ts";
import { bestPath, decided, spansOf } from "./path.ts";
import { type Judged, pieceOf } from "./piece.ts";
import { implausible } from "./plausible.ts";
import type { Symbols } from "./symbols.ts";
import { talkless } from "./talkless.ts";
import { type Word, wordsOf } from "./words.ts";

/** Words -> meaning. Never throws: what is not understood comes back as `unsure` or not at all. */
export interface Parser {
  /** `confidence` is the ear's own, 0 to 1, of the whole or of each word; typed text has 1. */
  parse(text: string, context?: Context, confidence?: number | readonly number[]): Meaning;
}

/** Characters of a text, from the first to before the last, counted in UTF-16 units. */
export interface Stretch {
  readonly from: number;
  readonly to: number;
}

/** A parser that shows how it came to a meaning. */
export interface TracingParser extends Parser {
  /** The stretches of a phrase that its meaning came from, in order; the words between them were passed over. */
  understood(text: string, context?: Context): Stretch[];
  /** The stages of one phrase, a line each: for a test that fails and for whoever writes grammar. */
  trace(text: string, context?: Context): string[];
}

/** Longer than anybody says in one breath; the rest is not read. */
const MOST_WORDS = 120;

/** The part whose words are those of numbers. */
const NUMBERS = "$numbers.abnf#any";
/** The part that names what is counted in talk: "quid", "metres long". */
const THING = "$talk.abnf#thing";
/** The part that begins a note: "make a note that". */
const NOTE_LEAD = "$notes.abnf#lead";
const NO_SYMBOL = -1;
/** Read in seconds, which have to be said. */
const TIMED = "gas-meter-time";

/** What the parser remembers of islands met before; more than that is dropped. */
const MOST_ROWS = 100_000;

/** Makes a parser from a compiled language. */
export function createParser(language: ParserLanguage): TracingParser {
  return parserOf(foldLanguage(language));
}

/** Makes a parser from a folded language, which it takes over: no second one may be made from it. */
export function parserOf(language: FoldedLanguage): TracingParser {
  const { symbols, rows, island: graph } = language;
  const parts = indexParts(language.parts);
  const confusions = indexConfusions(language.confusions, language.fillers, symbols);
  const vocabulary = vocabularyOf(language, graph, parts, symbols);
  const noteLead = symbols.of(NOTE_LEAD);
  rows.keep();
  const pieces: (Judged | null | undefined)[] = [];
  const said = (row: number): Judged | null => {
    const known = pieces[row];
    if (known !== undefined) return known;
    const means = pieceOf(rows.tags(row));
    const judged = means && { ...means, implausible: implausible(means.piece) };
    pieces[row] = judged;
    return judged;
  };

  const find = (words: readonly Word[], context: Context): { lattice: Lattice; found: Found[] } => {
    const lattice = latticeOf(words, confusions, symbols);
    addParts(lattice, parts, rows);
    const spans = spansOf(graph, vocabulary, lattice, rows, said, context);
    const found = bestPath(spans, vocabulary, lattice);
    if (found.every(({ rivals }) => rivals.length === 0)) return { lattice, found };
    // What else was said in this breath counts too: O2 against CO2.
    const known = [...context.known, ...knownIn(found, context)];
    return { lattice, found: decided(found, { ...context, known }) };
  };

  /** The islands of a phrase, read as the answer to the open question where it is one. */
  const read = (text: string, context: Context) => {
    if (rows.size > MOST_ROWS) {
      rows.forget();
      pieces.length = 0;
    }
    const words = wordsOf(text).slice(0, MOST_WORDS);
    const plain = find(words, context);
    const answers = answering(plain.found, context).map(({ before, after }) =>
      find([...before, ...words, ...after], context),
    );
    // Of the quantities that were in question, the first that the number can be.
    const answer = answers.find(isPossible) ?? answers[0];
    return { ...(answer ?? plain), isAnswer: answer !== undefined };
  };

  const assembled = (text: string, context: Context, confidence: number | readonly number[]) => {
    const { lattice, found, isAnswer } = read(text, context);
    const heard = heardOf(text, lattice, found, confidence, noteLead);
    const reread: Reread = (quantity, { start, end }) => {
      const again = find(
        [...unspoken(quantityOf(quantity).name), ...lattice.words.slice(start, end)],
        context,
      ).found;
      const only = again.length === 1 ? again[0]?.piece : undefined;
      return only?.kind === "reading" && only.quantity === quantity ? only : null;
    };
    const asked = isAnswer && context.question?.asks === "value" ? context.question.firing : null;
    const each = unpaired(heard, coversOf(found, lattice.words), context);
    return { lattice, ...assemble(text, each.heard, each.covers, { ...context, reread, asked }) };
  };

  return {
    parse(text, context = NO_CONTEXT, confidence = 1) {
      return assembled(text, context, confidence).meaning;
    },
    understood(text, context = NO_CONTEXT) {
      const { lattice, used } = assembled(text, context, 1);
      return used.map((island) => stretchOf(text, lattice, island));
    },
    trace(text, context = NO_CONTEXT) {
      const { lattice, found } = read(text, context);
      const covers = coversOf(found, lattice.words);
      const words = `words: ${lattice.words.map(({ word, afterBreak }) => (afterBreak ? `, ${word}` : word)).join(" ")}`;
      const islands = found.map(({ piece, cost, place, rivals, ...span }, i) => {
        const said = saidOf(text, lattice, { piece, cost, place, rivals, ...span });
        const but = rivals.map(
          (rival) => `\n    or, ${rival.behind.toFixed(2)} dearer: ${JSON.stringify(rival.piece)}`,
        );
        const where = [place, covers[i] ? `covered: ${covers[i]}` : null].filter(Boolean).join(", ");
        return `  "${said}" ${cost.toFixed(2)} ${where} ${JSON.stringify(piece)}${but.join("")}`;
      });
      return [words, ...islands];
    },
  };
}

function vocabularyOf(
  { fillers, hints }: FoldedLanguage,
  graph: Graph,
  { parts }: PartIndex,
  symbols: Symbols,
): Vocabulary {
  const passed = new Set(fillers.flatMap(({ words }) => (words.length === 1 ? words : [])));
  const numbers =
    parts.find(({ symbol }) => symbol === symbols.of(NUMBERS))?.graph.vocabulary ?? new Set<string>();
  return {
    known: new Set([graph, ...parts.map((part) => part.graph)].flatMap((each) => [...each.vocabulary])),
    numbers: new Set([...numbers].filter((word) => !passed.has(word))),
    thing: symbols.of(THING) || NO_SYMBOL,
    hints,
  };
}

function heardOf(
  text: string,
  lattice: Lattice,
  found: readonly Found[],
  confidence: number | readonly number[],
  noteLead: number,
): Heard[] {
  const before = talkless(lattice, found, -1, false);
  const after = talkless(lattice, found, 1, false);
  const apart = found.some(({ place }) => place === "alone");
  const headed = apart ? talkless(lattice, found, -1, true) : before;
  const ended = apart ? talkless(lattice, found, 1, true) : after;
  return found.map((island) => {
    const heard = heardWell(lattice, island, confidence);
    return {
      ...island,
      said: saidOf(text, lattice, island),
      note: island.piece.kind === "note" ? noteOf(text, lattice, island, noteLead) : null,
      before: before[island.start] ?? false,
      after: after[island.end] ?? false,
      apart: (headed[island.start] ?? false) && (ended[island.end] ?? false),
      heard,
      confidence: Number((heard * island.share * Math.exp(-island.cost / 20)).toFixed(3)),
    };
  });
}

/** How sure the ear was of an island: of its least sure word. */
function heardWell(
  { words }: Lattice,
  { start, end }: Found,
  confidence: number | readonly number[],
): number {
  if (typeof confidence === "number") return confidence;
  const own = confidence.length === words.length ? confidence.slice(start, end) : confidence;
  return Math.min(1, ...own);
}

/** Readings of this phrase that have no rival. */
function knownIn(found: readonly Found[], { firing }: Context): Known[] {
  return found.flatMap(({ piece, rivals }) =>
    piece.kind === "reading" && rivals.length === 0 && piece.flaw === null
      ? [{ quantity: piece.quantity, value: piece.value, unit: piece.unit, firing }]
      : [],
  );
}

/**
 * The words that an answer leaves out: a number alone is read as if the quantity asked for had been said before it, a
 * quantity alone as if the number had been said after it. None where the phrase is no such answer.
 */
function answering(found: readonly Found[], { question }: Context): { before: Word[]; after: Word[] }[] {
  const said = found.filter(({ piece }) => piece.kind !== "aside");
  const [only] = said;
  if (question?.asks === "value" && question.quantity === TIMED && said.length <= 1) {
    // Seconds and no other word; in talk they are a count of something.
    const [first] = found;
    const isSeconds = first?.piece.kind === "aside" && first.piece.aside === "number" && first.start === 0;
    if (isSeconds || only?.piece.kind === "stray-number")
      return [{ before: unspoken(quantityOf(TIMED).name), after: isSeconds ? [] : unspoken("seconds") }];
  }
  if (!question || !only || said.length !== 1) return [];
  if (question.asks === "value" && only.piece.kind === "stray-number") {
    const { quantity, condition, others = [] } = question;
    return [quantity, ...others].map((id) => ({
      before: unspoken(`${condition ?? ""} ${quantityOf(id).name}`),
      after: [],
    }));
  }
  if (question.asks === "quantity" && only.piece.kind === "stray-quantity") {
    return [{ before: [], after: unspoken(shownValue(question.value, question.unit).replace("−", "-")) }];
  }
  return [];
}

function isPossible({ found }: { readonly found: readonly Found[] }): boolean {
  return found.some(
    ({ piece }) => piece.kind === "reading" && doubt(piece.quantity, piece.value, piece.unit) === null,
  );
}

/** Words that were not said in this phrase: they come from no place in its text. */
function unspoken(text: string): Word[] {
  return wordsOf(text).map((word) => ({ ...word, start: -1, end: -1 }));
}

/** The exact words of an island. */
function saidOf(text: string, lattice: Lattice, island: Found): string {
  const { from, to } = stretchOf(text, lattice, island);
  return text.slice(from, to).trim();
}

/** Where an island stands in its text. A note runs to the end of the phrase, punctuation and all. */
function stretchOf(text: string, { words }: Lattice, { piece, start, end }: Found): Stretch {
  const spoken = words.slice(start, end).filter((word) => word.start >= 0);
  const from = spoken[0]?.start ?? 0;
  return { from, to: piece.kind === "note" ? text.length : (spoken.at(-1)?.end ?? text.length) };
}

/** The words of a note after those that begin it, exactly as they were said. */
function noteOf(
  text: string,
  { words, edges, nodeAt, wordAt }: Lattice,
  { start, end }: Found,
  lead: number,
): string {
  const ends = (edges[nodeAt[start] ?? 0] ?? []).flatMap(({ symbol, to }) =>
    symbol === lead ? [wordAt[to] ?? end] : [],
  );
  const last = Math.max(start, ...ends.filter((at) => at > start && at < end)) - 1;
  return text
    .slice(words[last]?.end ?? 0)
    .replace(/^[\s:,.-]+/, "")
    .trim();
}
