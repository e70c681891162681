import { found, type Problem } from "./problem.ts";

/** The kinds of file that are read, by what their `format` field says. */
export const FORMATS = {
  visit: { format: "burnerside-visit/1", name: "visit bundle", largestMiB: 32 },
  sheet: { format: "burnerside-sheet/1", name: "limits sheet", largestMiB: 1 },
  voice: { format: "burnerside-voice/1", name: "voice file", largestMiB: 2 },
} as const;
export type FileKind = keyof typeof FORMATS;

const MIB = 1024 * 1024;

/** A file too large to be of this kind (counted in UTF-16 units of its text), or null. */
export function sizeProblem(length: number, kind: FileKind): Problem | null {
  const { name, largestMiB } = FORMATS[kind];
  if (length <= largestMiB * MIB) return null;
  const size = (Math.ceil((length * 10) / MIB) / 10).toFixed(1);
  return { path: "", message: `Expected a ${name} of at most ${largestMiB} MiB, found ${size} MiB.` };
}

/** What kind of file this is, by its `format`, whatever the version; null where it does not say. */
export function kindOf(raw: unknown): FileKind | null {
  const stated = formatOf(raw);
  if (stated?.startsWith("burnerside-visit/")) return "visit";
  if (stated?.startsWith("burnerside-voice/")) return "voice";
  return stated?.startsWith("burnerside-sheet/") ? "sheet" : null;
}

/**
 * A `format` that is stated but not the one wanted: another kind of file, or a version that this program does not
 * read. All else about such a file is beside the point. Null where the format fits or is missing.
 */
export function formatProblem(raw: unknown, wanted: FileKind): Problem | null {
  const stated = formatOf(raw);
  const { format, name } = FORMATS[wanted];
  if (stated === null || stated === format) return null;
  const kind = kindOf(raw);
  if (kind === null || kind !== wanted) {
    const what = kind === null ? found(stated) : `a ${FORMATS[kind].name}`;
    return { path: "format", message: `Expected a ${name} (${found(format)}), found ${what}.` };
  }
  return {
    path: "format",
    message: `Expected version ${found(format)} of the ${name}, the only one that this program reads, found ${found(stated)}.`,
  };
}

function formatOf(raw: unknown): string | null {
  if (typeof raw !== "object" || raw === null || !("format" in raw)) return null;
  return typeof raw.format === "string" ? raw.format : null;
}
