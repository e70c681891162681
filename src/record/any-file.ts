import { visitFrom } from "./bundle.ts";
import { FORMATS, kindOf, sizeProblem } from "./format.ts";
import { problemsIn, readJson } from "./json.ts";
import type { Json } from "./plain-json.ts";
import { found, type Problem, problemsFrom } from "./problem.ts";
import { sheetFrom } from "./sheet-file.ts";

/** What is wrong with the text of a limits sheet or a visit bundle, told apart by `format`; empty where it is sound. */
export function fileProblems(text: string): Problem[] {
  const tooLarge = sizeProblem(text.length, "visit");
  if (tooLarge) return [tooLarge];
  return problemsIn(readJson(text), (value) => problemsOfKind(value, text.length));
}

function problemsOfKind(raw: Json, length: number): Problem[] {
  const kind = kindOf(raw);
  if (kind === null) {
    const formats = Object.values(FORMATS).map(({ format }) => found(format));
    return [
      { path: "format", message: `Expected one of ${formats.join(", ")}, found ${statedFormat(raw)}.` },
    ];
  }
  const tooLarge = sizeProblem(length, kind);
  return tooLarge ? [tooLarge] : problemsFrom(kind === "visit" ? visitFrom(raw) : sheetFrom(raw));
}

function statedFormat(raw: unknown): string {
  return typeof raw === "object" && raw !== null && "format" in raw ? found(raw.format) : "none";
}
