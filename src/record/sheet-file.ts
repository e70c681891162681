import { Sheet } from "../visit/sheet.ts";
import { formatProblem } from "./format.ts";
import { bounded } from "./problem.ts";
import { type Refused, readText } from "./read-text.ts";
import { problemsOf } from "./zod-problems.ts";

export type SheetRead = { readonly ok: true; readonly sheet: Sheet } | Refused;

/**
 * Reads a limits sheet, at most 1 MiB of text, that may be broken or hostile. All problems are reported. What looks
 * unusual but can be so is taken as it stands: the maker's instructions prevail.
 */
export function readSheet(text: string): SheetRead {
  return readText(text, "sheet", sheetFrom);
}

/** The same for JSON that is read already. */
export function sheetFrom(raw: unknown): SheetRead {
  const foreign = formatProblem(raw, "sheet");
  if (foreign) return { ok: false, problems: [foreign] };
  const parsed = Sheet.safeParse(raw);
  return parsed.success
    ? { ok: true, sheet: parsed.data }
    : { ok: false, problems: bounded(problemsOf(parsed.error.issues, raw)) };
}
