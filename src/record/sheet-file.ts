import { Sheet } from "../visit/sheet.ts";
import { formatProblem, sizeProblem } from "./format.ts";
import { problemsIn, readJson } from "./json.ts";
import { bounded, type Problem, problemsFrom } from "./problem.ts";
import { problemsOf } from "./zod-problems.ts";

export type SheetRead =
  | { readonly ok: true; readonly sheet: Sheet }
  | { readonly ok: false; readonly problems: Problem[] };

/**
 * Reads a limits sheet, at most 1 MiB of text, that may be broken or hostile. All problems are reported. What looks
 * unusual but can be so is taken as it stands: the maker's instructions prevail.
 */
export function readSheet(text: string): SheetRead {
  const tooLarge = sizeProblem(text.length, "sheet");
  if (tooLarge) return { ok: false, problems: [tooLarge] };
  const read = readJson(text);
  if (read.ok) return sheetFrom(read.value);
  return { ok: false, problems: problemsIn(read, (value) => problemsFrom(sheetFrom(value))) };
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
