import { readFile, stat } from "node:fs/promises";
import { importVisit } from "../record/bundle.ts";
import { sizeProblem } from "../record/format.ts";
import { decodeText } from "../record/utf8.ts";
import type { Visit } from "../visit/visit.ts";

export type ReadVisit =
  | { readonly ok: true; readonly visit: Visit }
  | { readonly ok: false; readonly problems: readonly string[] };

/** Reads a visit bundle from a file, or says what is wrong with it, each problem with the file's name and the place. */
export async function readVisitFile(file: string): Promise<ReadVisit> {
  const bytes = await bytesOf(file);
  if (typeof bytes === "string") return { ok: false, problems: [`${file}: ${bytes}`] };
  const decoded = decodeText(bytes);
  const read = decoded.ok ? importVisit(decoded.text) : decoded;
  if (read.ok) return read;
  return {
    ok: false,
    problems: read.problems.map(
      ({ path, message }) => `${file}: ${path === "" ? "" : `${path}: `}${message}`,
    ),
  };
}

async function bytesOf(file: string): Promise<Uint8Array | string> {
  try {
    const { size } = await stat(file);
    return sizeProblem(size, "visit")?.message ?? (await readFile(file));
  } catch (error) {
    const code = error instanceof Error && "code" in error ? String(error.code) : "unknown error";
    return `expected a readable visit bundle (${code})`;
  }
}
