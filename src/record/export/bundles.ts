import type { Visit } from "../../visit/visit.ts";
import { bundleOf, type Import, importVisit } from "../bundle.ts";

/**
 * Many visits in one file: JSON Lines, one bundle a line (schema visit-1 each) with its line feed, in the order given, so that a
 * reader can take them one by one and a broken line spoils no other. Throws ZodError for what is no visit: a programming error.
 */
export function* bundleLines(visits: readonly Visit[]): Iterable<string> {
  for (const visit of visits) yield `${JSON.stringify(bundleOf(visit))}\n`;
}

/** One line of a combined file, and what it holds. */
export interface ImportedLine {
  /** From 1. */
  readonly line: number;
  readonly read: Import;
}

/**
 * Reads a combined file that may be broken or hostile, line by line as they are asked for. Each line is checked on its own, as
 * `importVisit` does, and at most as large as a bundle may be; blank lines are passed over.
 */
export function* importVisits(text: string): Iterable<ImportedLine> {
  let from = text.startsWith("\uFEFF") ? 1 : 0;
  for (let line = 1; from < text.length; line += 1) {
    const end = text.indexOf("\n", from);
    const until = end === -1 ? text.length : end;
    const content = text.slice(from, until);
    if (/\S/.test(content)) yield { line, read: importVisit(content) };
    from = until + 1;
  }
}
