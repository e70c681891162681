import { DamagedText, type OfficeRules } from "../../device/office/store.ts";
import { visitFrom } from "../../record/bundle.ts";
import { judgedAnew, KeptVisit, merge } from "../../record/office/kept.ts";
import type { Visit } from "../../visit/visit.ts";

/** What the office's store works by. */
export const RULES: OfficeRules = {
  merge,
  judgedAnew,
  visitOf,
  listed: (stored) => KeptVisit.safeParse(stored).data ?? null,
};

/** Reads a text that the office keeps. Throws DamagedText where it is no visit any more. */
export function visitOf(text: string): Visit {
  const read = visitFrom(parsed(text));
  if (read.ok) return read.visit;
  const [{ path, message } = { path: "", message: "" }] = read.problems;
  throw new DamagedText(`What the office keeps of this visit is damaged: ${`${path} ${message}`.trim()}`);
}

function parsed(text: string): unknown {
  try {
    return JSON.parse(text);
  } catch {
    throw new DamagedText(
      "What the office keeps of this visit is damaged: expected JSON, found something else.",
    );
  }
}
