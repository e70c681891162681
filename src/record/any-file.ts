import type { Visit } from "../visit/visit.ts";
import { visitFrom } from "./bundle.ts";
import { FORMATS, kindOf, sizeProblem } from "./format.ts";
import { problemsIn, readJson } from "./json.ts";
import type { Json } from "./plain-json.ts";
import { found, type Problem, problemsFrom } from "./problem.ts";
import { sheetFrom } from "./sheet-file.ts";
import { voiceFrom } from "./voice-file.ts";

/** What the text of a file turned out to be. */
export interface AnyFile {
  /** Null for all but a sound visit bundle. */
  readonly visit: Visit | null;
  /** All that is wrong; empty where it is sound. */
  readonly problems: readonly Problem[];
}

/** Reads the text of a limits sheet, a visit bundle or an own voice, told apart by `format`. */
export function readAnyFile(text: string): AnyFile {
  const tooLarge = sizeProblem(text.length, "visit");
  if (tooLarge) return { visit: null, problems: [tooLarge] };
  let visit: Visit | null = null;
  const json = readJson(text);
  const problems = problemsIn(json, (raw) => {
    const read = readOfKind(raw, text.length);
    if (read.ok && "visit" in read && json.ok) visit = read.visit;
    return problemsFrom(read);
  });
  return { visit, problems };
}

/** What is wrong with such a text; empty where it is sound. */
export function fileProblems(text: string): readonly Problem[] {
  return readAnyFile(text).problems;
}

function readOfKind(
  raw: Json,
  length: number,
): ReturnType<typeof visitFrom> | ReturnType<typeof sheetFrom> | ReturnType<typeof voiceFrom> {
  const kind = kindOf(raw);
  if (kind === null) {
    const formats = Object.values(FORMATS).map(({ format }) => found(format));
    const message = `Expected one of ${formats.join(", ")}, found ${statedFormat(raw)}.`;
    return { ok: false, problems: [{ path: "format", message }] };
  }
  const tooLarge = sizeProblem(length, kind);
  if (tooLarge) return { ok: false, problems: [tooLarge] };
  switch (kind) {
    case "visit":
      return visitFrom(raw);
    case "sheet":
      return sheetFrom(raw);
    case "voice":
      return voiceFrom(raw);
  }
}

function statedFormat(raw: unknown): string {
  return typeof raw === "object" && raw !== null && "format" in raw ? found(raw.format) : "none";
}
