/** A fault in a grammar file: where, and what was expected. */
export interface GrammarProblem {
  readonly file: string;
  readonly line: number;
  readonly message: string;
}

/** Thrown at build time only, with every problem found, never the first alone. */
export class GrammarError extends Error {
  constructor(readonly problems: readonly GrammarProblem[]) {
    super(problems.map((p) => `${p.file}:${p.line}: ${p.message}`).join("\n"));
    this.name = "GrammarError";
  }
}
