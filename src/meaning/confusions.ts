import { quoted } from "../measure/quoted.ts";
import type { Confusion } from "./network.ts";
import { GrammarError, type GrammarProblem } from "./problem.ts";

/**
 * Reads the list of what recognisers and people write in place of the grammar's words, one a line:
 * `see oh two => co2  0.5` (heard, meant, cost in nats); `uh =>  0.1` is a filler that means nothing. A `*` at the head of
 * a heard word stands for any stem: `*'s => * is  0`. Words after `>` must follow, and stay: `higher > co2 => high fire  0.2`. `#` starts a comment.
 */
export function readConfusions(file: string, source: string): Confusion[] {
  const out: Confusion[] = [];
  const problems: GrammarProblem[] = [];
  source.split("\n").forEach((raw, i) => {
    const text = raw.replace(/(^|\s)#.*/, "").trim();
    if (text === "") return;
    const found = /^(.+?)\s*=>\s*(.*?)\s*(\d+(?:\.\d+)?)$/.exec(text);
    if (!found) {
      problems.push({ file, line: i + 1, message: `expected "heard => meant cost", found ${quoted(text)}` });
      return;
    }
    const [, heard = "", means = "", cost = "0"] = found;
    const [replaced = "", before = ""] = heard.split(" > ");
    out.push({ heard: split(replaced), before: split(before), means: split(means), cost: Number(cost) });
  });
  if (problems.length > 0) throw new GrammarError(problems);
  return out;
}

function split(text: string): string[] {
  return text.toLowerCase().split(/\s+/).filter(Boolean);
}
