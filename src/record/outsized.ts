import { type Problem, pathText } from "./problem.ts";

/** Places of a list in the file's own object: a phrase every two seconds for eleven hours. */
const MOST_ENTRIES = 20_000;
/** Places of a list further in, and fields of an object: many times what any format of ours has. */
const MOST_INSIDE = 1000;

/**
 * The first list or object of a file, at most `DEEPEST` deep, that has more in it than any sound one; null where there is none. To
 * be asked before anything checks the value field by field: that makes an object of each thing that it finds wrong.
 */
export function outsized(value: unknown, path: readonly PropertyKey[] = []): Problem | null {
  if (Array.isArray(value)) {
    // One below it, a log's links: of the head too.
    const most = path.length === 1 ? MOST_ENTRIES : path.length === 2 ? MOST_ENTRIES + 1 : MOST_INSIDE;
    if (value.length > most) return tooMany(path, `a list of at most ${most} places`, value.length);
    return firstOf(value.entries(), path);
  }
  if (typeof value !== "object" || value === null) return null;
  const fields = Object.entries(value);
  if (fields.length > MOST_INSIDE)
    return tooMany(path, `an object of at most ${MOST_INSIDE} fields`, fields.length);
  return firstOf(fields, path);
}

function firstOf(
  inside: Iterable<readonly [PropertyKey, unknown]>,
  path: readonly PropertyKey[],
): Problem | null {
  for (const [step, value] of inside) {
    if (typeof value !== "object" || value === null) continue;
    const problem = outsized(value, [...path, step]);
    if (problem) return problem;
  }
  return null;
}

function tooMany(path: readonly PropertyKey[], expected: string, count: number): Problem {
  return { path: pathText(path), message: `Expected ${expected}, found ${count}.` };
}
