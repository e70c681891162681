/** What the notebook cannot do, in one sentence for people. */
export class NotebookError extends Error {
  override readonly name = "NotebookError";
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
