import { Fuel } from "../measure/firing.ts";
import { Sheet } from "../visit/sheet.ts";
import { formatProblem } from "./format.ts";
import { outsized } from "./outsized.ts";
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

/**
 * A sheet as a file: JSON, keys always in the order of the type, a newline at the end. Equal sheets give equal text.
 * Throws ZodError for what is no sheet: a programming error, as every edge that a sheet comes in by checks it.
 */
export function exportSheet(sheet: Sheet): string {
  return `${JSON.stringify(inOrder(Sheet.parse(sheet)), null, 2)}\n`;
}

/** Fuels are a record, whose keys zod leaves in the order in which they came. */
export function inOrder(sheet: Sheet): Sheet {
  const { fuels } = sheet;
  const ordered = Fuel.options.flatMap((fuel) => (fuels[fuel] ? [[fuel, fuels[fuel]]] : []));
  return { ...sheet, fuels: Object.fromEntries(ordered) };
}

/** The file's name from the sheet's title; every letter and figure of any script may be in it, and nothing else. */
export function sheetFileName(title: string): string {
  const words =
    title
      .normalize("NFC")
      .toLowerCase()
      .match(/[\p{L}\p{M}\p{N}]+/gu) ?? [];
  const name = [...words.join("-")].slice(0, 60).join("").replace(/-$/, "");
  return `limits-sheet-${name || "untitled"}.json`;
}

/** `readSheet` for JSON that is read already. */
export function sheetFrom(raw: unknown): SheetRead {
  const foreign = formatProblem(raw, "sheet") ?? outsized(raw);
  if (foreign) return { ok: false, problems: [foreign] };
  const parsed = Sheet.safeParse(raw);
  return parsed.success
    ? { ok: true, sheet: parsed.data }
    : { ok: false, problems: bounded(problemsOf(parsed.error.issues, raw)) };
}
