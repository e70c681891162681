import { Visit } from "../visit/visit.ts";
import { formatProblem } from "./format.ts";
import { bounded } from "./problem.ts";
import { type Refused, readText } from "./read-text.ts";
import { inOrder } from "./sheet-file.ts";
import { visitProblems } from "./visit-rules.ts";
import { problemsOf } from "./zod-problems.ts";

export type Import = { readonly ok: true; readonly visit: Visit } | Refused;

/**
 * A visit as a bundle: JSON, keys always in the order of the types, a newline at the end. Equal visits give equal text.
 * Throws ZodError for what is no visit: a programming error, as every edge that a visit comes in by checks it.
 */
export function exportVisit(visit: Visit): string {
  return `${JSON.stringify(bundleOf(visit), null, 2)}\n`;
}

/** The same before it is text. */
export function bundleOf(visit: Visit): Visit {
  const { head, ...rest } = Visit.parse(visit);
  const { format, ...others } = rest;
  const sheet = head.sheet && inOrder(head.sheet);
  return { format, head: { ...head, sheet }, ...others };
}

/** Reads a bundle, at most 32 MiB of text, that may be broken or hostile. All problems are reported; nothing is guessed. */
export function importVisit(text: string): Import {
  return readText(text, "visit", visitFrom);
}

/** The same for JSON that is read already. */
export function visitFrom(raw: unknown): Import {
  const foreign = formatProblem(raw, "visit");
  if (foreign) return { ok: false, problems: [foreign] };
  const parsed = Visit.safeParse(raw);
  // Where all of it was read, no entry is read twice.
  const rules = parsed.success
    ? visitProblems(parsed.data.entries, (_, place) => parsed.data.entries[place] ?? null)
    : visitProblems(entriesOf(raw));
  if (parsed.success && rules.length === 0) return { ok: true, visit: parsed.data };
  return { ok: false, problems: bounded([...problemsOf(parsed.error?.issues ?? [], raw), ...rules]) };
}

function entriesOf(raw: unknown): readonly unknown[] {
  return typeof raw === "object" && raw !== null && "entries" in raw && Array.isArray(raw.entries)
    ? raw.entries
    : [];
}
