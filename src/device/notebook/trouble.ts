/**
 * Why: `gone`, the visit is not there any more; `overtaken`, another window has added to it; `newer`, a later version of the
 * app has laid the notebook out anew.
 */
export type Trouble = "gone" | "overtaken" | "newer" | "other";

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

/** One sentence's worth of why a write failed. */
export function reasonOf(error: unknown): string {
  if (!(error instanceof Error)) return String(error);
  // Dexie puts the platform's own error inside its own.
  const inner = (error as { inner?: unknown }).inner;
  const named = inner instanceof Error ? inner : error;
  if (named.name === "QuotaExceededError") return "the device is out of space for it";
  return (named.message || named.name).replace(/\.$/, "");
}
