import { visitFrom } from "./bundle.ts";
import { type FileKind, FORMATS, kindOf, sizeProblem } from "./format.ts";
import { readJson } from "./json.ts";
import { found, type Problem } from "./problem.ts";
import { sheetFrom } from "./sheet-file.ts";

/** What is wrong with the text of a limits sheet or a visit bundle, told apart by `format`; empty where it is sound. */
export function fileProblems(text: string): Problem[] {
  const tooLarge = sizeProblem(text.length, "visit");
  if (tooLarge) return [tooLarge];
  const read = readJson(text);
  if (!read.ok) return read.problems;
  const kind = kindOf(read.value);
  if (kind === null) {
    const formats = Object.values(FORMATS).map(({ format }) => `"${format}"`);
    return [
      {
        path: "format",
        message: `Expected one of ${formats.join(", ")}, found ${statedFormat(read.value)}.`,
      },
    ];
  }
  const tooLargeOfKind = sizeProblem(text.length, kind);
  return tooLargeOfKind ? [tooLargeOfKind] : problemsOfKind(read.value, kind);
}

function statedFormat(raw: unknown): string {
  return typeof raw === "object" && raw !== null && "format" in raw ? found(raw.format) : "none";
}

function problemsOfKind(raw: unknown, kind: FileKind): Problem[] {
  const read = kind === "visit" ? visitFrom(raw) : sheetFrom(raw);
  return read.ok ? [] : read.problems;
}
