/** The world as a verb sees it: text in, text out. */
export interface Io {
  /** Standard input as it arrives. A verb takes either this or its lines. */
  readonly input: AsyncIterable<Uint8Array>;
  /** Lines of standard input as they arrive, without line ends. */
  readonly lines: AsyncIterable<string>;
  /** Writes one JSON object as a line on standard output. */
  json(value: unknown): void;
  /** Writes one sentence for people on standard error. */
  say(message: string): void;
}

/** Says each problem as a sentence of its verb; the exit status. */
export function refuse(io: Io, verb: string, problems: readonly string[], status: number): number {
  for (const problem of problems) io.say(`${verb}: ${problem}${problem.endsWith(".") ? "" : "."}`);
  return status;
}

/** One word of the command line. */
export interface Verb {
  readonly usage: string;
  /** Resolves to the exit status, 0 only on success. */
  run(args: readonly string[], io: Io): Promise<number>;
}
