import { fileProblems } from "../record/any-file.ts";
import { sizeProblem } from "../record/format.ts";
import type { Problem } from "../record/problem.ts";
import { textOf } from "./read-file.ts";
import type { Verb } from "./verb.ts";

/** Validates limits sheets and visit bundles: one line for each file, status 1 if any is bad. */
export const check: Verb = {
  usage: "check FILE…",
  async run(args, io) {
    if (args.length === 0) {
      io.say("check: expected at least one file, found none. Usage: check FILE…");
      return 2;
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

async function problemsIn(file: string): Promise<readonly Problem[]> {
  const read = await textOf(file, (bytes) => sizeProblem(bytes, "visit"));
  return read.ok ? fileProblems(read.text) : read.problems;
}
