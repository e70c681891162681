import { readFile, stat } from "node:fs/promises";
import type { Problem } from "../record/problem.ts";
import { decodeText } from "../record/utf8.ts";

export type TextRead =
  | { readonly ok: true; readonly text: string }
  | { readonly ok: false; readonly problems: readonly Problem[] };

/** The text of a regular file, UTF-8, that `sizeProblem` finds not too large by its bytes; or why not. */
export async function textOf(
  file: string,
  sizeProblem: (bytes: number) => Problem | null,
): Promise<TextRead> {
  try {
    const about = await stat(file);
    if (!about.isFile()) return unreadable(about.isDirectory() ? "a folder" : "something that is not a file");
    const tooLarge = sizeProblem(about.size);
    return tooLarge ? { ok: false, problems: [tooLarge] } : decodeText(await readFile(file));
  } catch (error) {
    return unreadable(unreadableAs(error));
  }
}

function unreadable(what: string): TextRead {
  return { ok: false, problems: [{ path: "", message: `Expected a readable file, found ${what}.` }] };
}

/** What was found where a file was to be read, as the rest of "Expected …, found …". */
export function unreadableAs(error: unknown): string {
  const code = error instanceof Error && "code" in error ? error.code : null;
  if (code === "ENOENT") return "none of that name";
  if (code === "EACCES" || code === "EPERM") return "one that this user may not read";
  return code === null ? String(error) : `one that cannot be read (${code})`;
}
