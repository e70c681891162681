import { readFile, stat } from "node:fs/promises";
import { fileProblems } from "../record/any-file.ts";
import { sizeProblem } from "../record/format.ts";
import type { Problem } from "../record/problem.ts";
import { decodeText } from "../record/utf8.ts";
import type { Verb } from "./verb.ts";

/** Validates limits sheets and visit bundles: one line for each file, status 1 if any is bad. */
export const check: Verb = {
  name: "check",
  usage: "check FILE…",
  async run(args, io) {
    if (args.length === 0) {
      io.say("check: expected at least one file, found none. Usage: check FILE…");
      return 1;
    }
    let sound = true;
    for (const file of args) {
      const problems = await problemsIn(file);
      sound &&= problems.length === 0;
      io.json({ file, ok: problems.length === 0, problems });
    }
    return sound ? 0 : 1;
  },
};

async function problemsIn(file: string): Promise<Problem[]> {
  const bytes = await bytesOf(file);
  if (!(bytes instanceof Uint8Array)) return [bytes];
  const decoded = decodeText(bytes);
  return decoded.ok ? fileProblems(decoded.text) : decoded.problems;
}

/** The bytes of a regular file that is not too large to be read at all, or why not. */
async function bytesOf(file: string): Promise<Uint8Array | Problem> {
  try {
    const about = await stat(file);
    if (!about.isFile()) return unreadable(about.isDirectory() ? "a folder" : "something that is not a file");
    return sizeProblem(about.size, "visit") ?? (await readFile(file));
  } catch (error) {
    return unreadable(reason(error));
  }
}

function unreadable(what: string): Problem {
  return { path: "", message: `Expected a readable file, found ${what}.` };
}

function reason(error: unknown): string {
  const code = error instanceof Error && "code" in error ? error.code : null;
  if (code === "ENOENT") return "none of that name";
  if (code === "EACCES" || code === "EPERM") return "one that this user may not read";
  return error instanceof Error ? error.message : String(error);
}
