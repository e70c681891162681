import type { z } from "zod";
import { found, type Problem, pathText } from "./problem.ts";

export type Issue = z.core.$ZodIssue;

/** What zod found wrong, in plain words: one sentence each, with the place and the value that was found there. */
export function problemsOf(issues: readonly Issue[], raw: unknown): Problem[] {
  return issues.flatMap((issue) => sentences(issue, valueAt(raw, issue.path), issue.path, raw));
}

function sentences(issue: Issue, value: unknown, path: readonly PropertyKey[], raw: unknown): Problem[] {
  const one = (expected: string) => [{ path: pathText(path), message: sentence(expected, value) }];
  switch (issue.code) {
    case "invalid_type":
      return one(NAMES[issue.expected] ?? issue.expected);
    case "invalid_value":
      return one(oneOf(issue.values));
    case "too_small":
      return one(sized(issue.origin, issue.inclusive === false ? "above" : "at least", issue.minimum));
    case "too_big":
      return one(sized(issue.origin, issue.inclusive === false ? "below" : "at most", issue.maximum));
    case "not_multiple_of":
      return one("a whole number");
    case "invalid_format":
      return one(FORMATS[issue.format] ?? `text in the form of ${issue.format}`);
    case "unrecognized_keys":
      return issue.keys.map((key) => ({
        path: pathText([...path, key]),
        message: `Expected only fields that this format has, found ${found(key)}.`,
      }));
    case "invalid_union":
      return union(issue, one, raw, path);
    case "invalid_key":
    case "invalid_element":
      return issue.issues.flatMap((inner) => sentences(inner, value, path, raw));
    case "custom":
      return one(issue.message.replace(/^expected /, ""));
  }
}

/** Of several shapes, the one that the value comes nearest to: a wall of every shape's complaints helps nobody. */
function union(
  issue: Extract<Issue, { code: "invalid_union" }>,
  one: (expected: string) => Problem[],
  raw: unknown,
  path: readonly PropertyKey[],
): Problem[] {
  if (issue.errors.length === 0) {
    const options = "options" in issue && Array.isArray(issue.options) ? issue.options : [];
    return one(options.length > 0 ? oneOf(options) : "a known kind");
  }
  const [nearest = []] = [...issue.errors].sort((a, b) => distance(a) - distance(b));
  return nearest.flatMap((inner) => {
    const whole = [...path, ...inner.path];
    return sentences(inner, valueAt(raw, whole), whole, raw);
  });
}

/** How far a value is from a shape: fields that it has too many count double, a wrong sort of value most. */
function distance(issues: readonly Issue[]): number {
  return issues.reduce((sum, issue) => {
    if (issue.code === "unrecognized_keys") return sum + 2 * issue.keys.length;
    return sum + (issue.code === "invalid_type" && issue.path.length === 0 ? 9 : 1);
  }, 0);
}

const NAMES: Readonly<Record<string, string>> = {
  string: "text",
  number: "a number",
  int: "a whole number",
  boolean: "true or false",
  object: "an object {…}",
  record: "an object {…}",
  array: "a list […]",
  null: "null",
};

const FORMATS: Readonly<Record<string, string>> = {
  date: "a day such as 2026-11-25",
  datetime: "an ISO 8601 time with its zone such as 2026-11-25T09:30:00.000Z",
};

function oneOf(values: readonly unknown[]): string {
  const [only, ...others] = values.map(found);
  return others.length === 0 ? String(only) : `one of ${[only, ...others].join(", ")}`;
}

function sized(origin: string, bound: string, limit: number | bigint): string {
  if (origin === "string") return `text of ${bound} ${limit} ${limit === 1 ? "character" : "characters"}`;
  if (origin === "array") return `a list of ${bound} ${limit} places`;
  return `a number ${bound} ${limit}`;
}

function sentence(expected: string, value: unknown): string {
  return value === undefined
    ? `Expected ${expected}, but the field is missing.`
    : `Expected ${expected}, found ${found(value)}.`;
}

function valueAt(raw: unknown, path: readonly PropertyKey[]): unknown {
  let value: unknown = raw;
  for (const step of path) {
    if (typeof value !== "object" || value === null) return undefined;
    value = Object.getOwnPropertyDescriptor(value, step)?.value;
  }
  return value;
}
