/**
 * Why: `gone`, the visit is not there any more; `taken`, one with its id is there already; `overtaken`, another window has added
 * to it; `newer`, a later version of the app has laid the notebook out anew.
 */
export type Trouble = "gone" | "taken" | "overtaken" | "newer" | "other";

/** What the notebook cannot do, in one sentence for people. */
export class NotebookError extends Error {
  override readonly name = "NotebookError";
  readonly trouble: Trouble;

  constructor(message: string, trouble: Trouble = "other") {
    super(message);
    this.trouble = trouble;
  }
}

/** What kind of failure it was. */
export function troubleOf(error: unknown): Trouble {
  return error instanceof NotebookError ? error.trouble : "other";
}

/** What the browsers' own names of what went wrong mean to a person. Their messages are empty, or for programmers. */
const WORDS: ReadonlyMap<string, string> = new Map([
  ["QuotaExceededError", "the device is out of space for it"],
  ["UnknownError", "the browser cannot reach its storage"],
  ["AbortError", "the browser broke it off"],
  ["TransactionInactiveError", "the browser broke it off"],
  ["InvalidStateError", "the browser has closed its storage: load this page anew"],
  ["DatabaseClosedError", "the browser has closed its storage: load this page anew"],
]);

/** One sentence's worth of why a write failed. */
export function reasonOf(error: unknown): string {
  if (!(error instanceof Error)) return String(error);
  const cause = causeOf(error);
  return WORDS.get(cause.name) ?? (cause.message || cause.name).replace(/\.$/, "");
}

/** Dexie puts the platform's own error inside its own: of one thing as `inner`, of many at once in a list. */
function causeOf(error: Error): Error {
  const { inner, failures } = error as { inner?: unknown; failures?: unknown };
  const [first] = Array.isArray(failures) ? failures : [];
  const within = inner ?? first;
  return within instanceof Error && within !== error ? causeOf(within) : error;
}
