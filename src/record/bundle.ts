import { Entry } from "../visit/entry.ts";
import { Visit } from "../visit/visit.ts";
import { formatProblem } from "./format.ts";
import { outsized } from "./outsized.ts";
import { bounded, MOST } from "./problem.ts";
import { type Refused, readText } from "./read-text.ts";
import { inOrder } from "./sheet-file.ts";
import { visitProblems } from "./visit-rules.ts";
import { type Issue, problemsOf } from "./zod-problems.ts";

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
  const foreign = formatProblem(raw, "visit") ?? outsized(raw);
  if (foreign) return { ok: false, problems: [foreign] };
  const list = entriesOf(raw);
  // Entry by entry: of a list of nothing but faults no more are found than are told.
  const frame = Visit.safeParse(list && typeof raw === "object" ? { ...raw, entries: [] } : raw);
  const { entries, issues, all } = readEntries(list ?? []);
  const problems = problemsOf([...(frame.error?.issues ?? []), ...issues], raw);
  if (!all) return { ok: false, problems: bounded(problems, false) };
  problems.push(...visitProblems(list ?? [], (_, place) => entries[place] ?? null));
  return frame.success && problems.length === 0
    ? { ok: true, visit: { ...frame.data, entries: entries.filter((entry) => entry !== null) } }
    : { ok: false, problems: bounded(problems) };
}

interface EntriesRead {
  /** Each in its place; null for what is none. */
  readonly entries: readonly (Entry | null)[];
  readonly issues: readonly Issue[];
  /** Whether all were read: not where there are more problems than are told. */
  readonly all: boolean;
}

function readEntries(list: readonly unknown[]): EntriesRead {
  const entries: (Entry | null)[] = [];
  const issues: Issue[] = [];
  for (const [place, each] of list.entries()) {
    const { data, error } = Entry.safeParse(each);
    entries.push(data ?? null);
    for (const issue of error?.issues ?? [])
      issues.push({ ...issue, path: ["entries", place, ...issue.path] });
    if (issues.length > MOST) return { entries, issues, all: place === list.length - 1 };
  }
  return { entries, issues, all: true };
}

function entriesOf(raw: unknown): readonly unknown[] | null {
  return typeof raw === "object" && raw !== null && "entries" in raw && Array.isArray(raw.entries)
    ? raw.entries
    : null;
}
