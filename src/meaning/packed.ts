import type { Hints } from "./hints.ts";
import type { Confusion, Filler } from "./network.ts";

/**
 * A folded language as plain JSON, small: what occurs often is written once and referred to by its place, and numbers stand
 * in columns, like beside like, one character each.
 */
export interface PackedLanguage {
  /** Words and parts, that of symbol 1 first. */
  readonly names: readonly string[];
  /** Rows of tags, row 1 first. */
  readonly rows: readonly (readonly string[])[];
  /** The costs that occur, in nats. */
  readonly costs: readonly number[];
  /** The symbols of the parts; their graphs stand in this order, and that of the islands last. */
  readonly parts: readonly number[];
  readonly columns: Readonly<Record<Column, string>>;
  readonly confusions: readonly Confusion[];
  readonly fillers: readonly Filler[];
  readonly hints: Hints;
}

export type Column =
  /** For each graph: how many states it has. It starts in the first. */
  | "states"
  /** For each state: how many steps over symbols it has, how many over any word, and how many ways out. */
  | "counts"
  /** For each step over a symbol: the symbol, or 0 for that of the step before it. */
  | "symbols"
  /** For each state: the states of its graph that its steps over symbols lead to, then those over any word. */
  | "targets"
  /** For each state: the places of the costs of its steps, then of those of its ways out. */
  | "costs"
  /** The rows of the same. */
  | "rows";

/** A number is the character that stands so far behind the blank. Surrogates are no characters of their own. */
const BLANK = 0x20;
const MOST = 0xd7ff - BLANK;

/** Throws a RangeError where a number is no whole one from 0 to 55,263. */
export function writeNumbers(numbers: readonly number[]): string {
  const wrong = numbers.find((number) => !Number.isInteger(number) || number < 0 || number > MOST);
  if (wrong !== undefined) throw new RangeError(`expected a whole number from 0 to ${MOST}, found ${wrong}`);
  return numbers.map((number) => String.fromCharCode(number + BLANK)).join("");
}

/** The number at a place of a column; 0 beyond its end. */
export function numberAt(column: string, at: number): number {
  return at < column.length ? column.charCodeAt(at) - BLANK : 0;
}
