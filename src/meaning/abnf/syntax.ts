/** The parts of a W3C SRGS 1.0 grammar (ABNF form) that this project uses, as a tree. */
export type Expansion =
  | { readonly kind: "token"; readonly word: string; readonly line: number }
  | { readonly kind: "tag"; readonly tag: string; readonly line: number }
  | { readonly kind: "ref"; readonly file: string | null; readonly rule: string; readonly line: number }
  /** $NULL matches nothing said, $VOID never matches, $GARBAGE matches any one word. */
  | { readonly kind: "special"; readonly name: "NULL" | "VOID" | "GARBAGE"; readonly line: number }
  | { readonly kind: "sequence"; readonly parts: readonly Expansion[] }
  | { readonly kind: "choice"; readonly options: readonly Weighted[] }
  /** `max` null means without end. */
  | { readonly kind: "repeat"; readonly of: Expansion; readonly min: number; readonly max: number | null };

/** An alternative with its weight relative to its rivals; 1 where none is written. */
export interface Weighted {
  readonly weight: number;
  readonly of: Expansion;
}

export interface Rule {
  readonly name: string;
  readonly isPublic: boolean;
  readonly body: Expansion;
  readonly line: number;
}

/** The words of a `meta` declaration and the line it stands on. */
export interface Meta {
  readonly words: readonly string[];
  readonly line: number;
}

/** One grammar file. */
export interface Grammar {
  readonly file: string;
  readonly language: string;
  readonly root: string | null;
  readonly meta: ReadonlyMap<string, Meta>;
  readonly rules: ReadonlyMap<string, Rule>;
}
