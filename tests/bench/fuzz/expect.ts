import type { Problem } from "../../../src/record/problem.ts";
import { Fault } from "./target.ts";

/** Longer than any sentence that a person reads. */
const LONGEST = 600;
const MOST_PROBLEMS = 1001;

/** Controls, what turns the direction of the text around it, and what is not seen at all. */
const UNSEEN = /[\p{Cc}\p{Cf}\p{Zl}\p{Zp}]/u;
/** Text of the input, in the quotes that the readers put around it. */
const QUOTED = /"(?:[^"\\]|\\.)*"/gu;

/** Throws where a text is no clear sentence: one line, bounded, a capital first, a full stop last, and what was expected. */
export function clearSentence(text: string): void {
  const own = text.replace(QUOTED, '""');
  const wrong =
    harmlessLine(text) ??
    (/^\p{Lu}/u.test(text) ? null : "no capital first") ??
    (text.endsWith(".") ? null : "no full stop last") ??
    (/expected|instead|not an exported visit/i.test(own) ? null : "nothing of what was expected") ??
    (/[.!?] \p{Lu}/u.test(own) ? "more than one sentence" : null);
  if (wrong !== null) throw new Fault(`${wrong}: ${JSON.stringify(text).slice(0, 2 * LONGEST)}`);
}

/** Throws where a text is no single line that people can be shown. */
export function clearLine(text: string): void {
  const wrong = harmlessLine(text);
  if (wrong !== null) throw new Fault(`${wrong}: ${JSON.stringify(text).slice(0, 2 * LONGEST)}`);
}

function harmlessLine(text: string): string | null {
  if (text.trim() === "") return "nothing said";
  if (text.length > LONGEST) return `${text.length} letters`;
  if (UNSEEN.test(text)) return "unseen characters";
  return text.isWellFormed() ? null : "half of a surrogate pair";
}

/** Throws unless there is a problem, and each is one clear sentence with a place that can be shown. */
export function clearProblems(problems: readonly Problem[]): void {
  if (problems.length === 0) throw new Fault("refused without a problem");
  if (problems.length > MOST_PROBLEMS) throw new Fault(`${problems.length} problems`);
  for (const { path, message } of problems) {
    clearSentence(message);
    if (path !== "") clearLine(path);
  }
}

const KNOWN = new Map(
  [Object.prototype, Array.prototype, Function.prototype, String.prototype].map((each) => [
    each,
    Reflect.ownKeys(each).length,
  ]),
);

/** Throws where an input has put something into what all objects share. */
export function cleanPrototypes(): void {
  for (const [each, keys] of KNOWN)
    if (Reflect.ownKeys(each).length !== keys) throw new Fault("a prototype was changed");
}

/** Throws where two results differ; JSON that is equal is the same. */
export function same(a: unknown, b: unknown, what: string): void {
  const [first, second] = [JSON.stringify(a), JSON.stringify(b)];
  if (first !== second)
    throw new Fault(`${what}: ${String(first).slice(0, 200)} against ${String(second).slice(0, 200)}`);
}
