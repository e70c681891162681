import { type JSONPath, type JSONVisitor, printParseErrorCode, visit } from "jsonc-parser";
import { quoted } from "../measure/quoted.ts";
import { DEEPEST, type Json, readPlainJson } from "./plain-json.ts";
import { bounded, MOST, type Problem, pathText } from "./problem.ts";

export type JsonRead =
  | { readonly ok: true; readonly value: Json }
  /** `rest`: the value without what was refused, where the text is JSON, so that its other problems can be told too. */
  | { readonly ok: false; readonly problems: Problem[]; readonly rest?: Json };

/**
 * Reads JSON (RFC 8259) from a file that may be hostile. Unlike `JSON.parse` it says where and what in the same words
 * on every engine, refuses a key given twice (of two limits, which one counts?), `__proto__` and deep nesting.
 */
export function readJson(text: string): JsonRead {
  const json = text.startsWith("\uFEFF") ? text.slice(1) : text;
  const plain = readPlainJson(json);
  if (plain !== null) return { ok: true, value: plain.value };
  const { problems, broken } = inspect(json);
  if (problems.length === 0) return { ok: true, value: JSON.parse(json) };
  if (broken) return { ok: false, problems: bounded(problems) };
  const rest: Json = JSON.parse(json, (key, value) => (key === "__proto__" ? undefined : value));
  return { ok: false, problems: bounded(problems), rest };
}

/** All problems of a text: those of its JSON, and those that `inValue` finds in what could be read. */
export function problemsIn(read: JsonRead, inValue: (value: Json) => readonly Problem[]): Problem[] {
  if (read.ok) return bounded(inValue(read.value));
  return bounded([...read.problems, ...(read.rest === undefined ? [] : inValue(read.rest))]);
}

/** Leaves the library's recursion. */
class Stop extends Error {}

/** A problem past those that are told is only counted: a hostile file could have millions. */
const UNTOLD: Problem = { path: "", message: "" };

const VALUE = "a value";
const FIELD_NAME = 'a field name in quotes ("…")';

/** What is wrong with a text as JSON, up to the first place where it is `broken`: all after that would be guesses. */
function inspect(text: string): { problems: Problem[]; broken: boolean } {
  const problems: Problem[] = [];
  /** Of each object that is open its field names so far; of each list null. */
  const open: (Set<string> | null)[] = [];
  let expected = VALUE;
  let pathNow = (): JSONPath => [];

  const report = (path: JSONPath, line: number, column: number, sentence: string) => {
    const message = `Line ${line + 1}, column ${column + 1}: expected ${sentence}.`;
    problems.push({ path: pathText(path), message });
  };
  const stop = (path: JSONPath, line: number, column: number, sentence: string): never => {
    report(path, line, column, sentence);
    throw new Stop();
  };
  const begin = (line: number, column: number, path: () => JSONPath, names: Set<string> | null) => {
    if (open.length >= DEEPEST) stop([], line, column, `at most ${DEEPEST} levels of nesting, found more`);
    open.push(names);
    pathNow = path;
    expected = names ? FIELD_NAME : VALUE;
  };
  const afterValue = () => {
    const inside = open.at(-1);
    expected = inside === undefined ? "the end of the file" : `a comma or ${inside ? "}" : "]"}`;
  };
  const end: JSONVisitor["onObjectEnd"] = (offset, length, line, column) => {
    // The library ends what is open at the end of the file, too.
    if (length === 0) stop(pathNow(), line, column, `${expected}, found ${foundAt(text, offset)}`);
    open.pop();
    afterValue();
  };

  const visitor: JSONVisitor = {
    onObjectBegin: (_offset, _length, line, column, path) => begin(line, column, path, new Set()),
    onArrayBegin: (_offset, _length, line, column, path) => begin(line, column, path, null),
    onObjectEnd: end,
    onArrayEnd: end,
    onObjectProperty: (name, _offset, _length, line, column, path) => {
      const names = open.at(-1);
      const known = names?.has(name);
      names?.add(name);
      expected = "a colon after the field name";
      if (!known && name !== "__proto__") return;
      if (problems.length >= MOST) return void problems.push(UNTOLD);
      const place = [...path(), name];
      if (name === "__proto__") report(place, line, column, 'a field of this format, found "__proto__"');
      if (known) report(place, line, column, `each field once, found ${quoted(name)} again`);
    },
    onSeparator: (character) => {
      expected = character === "," && open.at(-1) ? FIELD_NAME : VALUE;
    },
    onLiteralValue: afterValue,
    onError: (code, offset, length, line, column) => {
      const fault = faultInside(printParseErrorCode(code), text, offset, length);
      if (fault) stop(pathNow(), line, column + fault.at, fault.sentence);
      const found = length === 0 ? foundAt(text, offset) : quoted(text.slice(offset, offset + length));
      stop(pathNow(), line, column, `${expected}, found ${found}`);
    },
  };

  try {
    visit(text, visitor, { disallowComments: true, allowTrailingComma: false, allowEmptyContent: false });
    return { problems, broken: false };
  } catch (error) {
    if (!(error instanceof Stop)) throw error;
    return { problems, broken: true };
  }
}

interface Fault {
  /** Characters from the start of the token. */
  readonly at: number;
  readonly sentence: string;
}

/** What is wrong inside a text or a number; null where a token as such is sound, or none, but not expected there. */
function faultInside(
  error: ReturnType<typeof printParseErrorCode>,
  text: string,
  offset: number,
  length: number,
): Fault | null {
  const end = (expected: string): Fault => ({
    at: length,
    sentence: `${expected}, found ${foundAt(text, offset + length)}`,
  });
  switch (error) {
    case "UnexpectedEndOfNumber":
      return end("a digit");
    case "UnexpectedEndOfString":
    case "InvalidEscapeCharacter":
    case "InvalidUnicode":
    case "InvalidCharacter":
      return faultInString(text.slice(offset, offset + length)) ?? end('the closing " of a text');
    default:
      return null;
  }
}

/** Escapes as RFC 8259 has them, or, as the group, what may not stand in a text: other escapes, control characters. */
const SPECIAL = /\\(?:["\\/bfnrt]|u[\da-fA-F]{4})|(\\u[\da-fA-F]{0,3}|\\[\s\S]?|[^ -\uffff])/g;

function faultInString(token: string): Fault | null {
  for (const { index, 1: wrong } of token.matchAll(SPECIAL)) {
    if (wrong === undefined) continue;
    const expected = wrong.startsWith("\\")
      ? 'one of \\" \\\\ \\/ \\b \\f \\n \\r \\t or \\u with four hexadecimal digits'
      : "control characters in a text written as escapes such as \\t";
    return { at: index, sentence: `${expected}, found ${quoted(wrong)}` };
  }
  return null;
}

function foundAt(text: string, offset: number): string {
  const code = text.codePointAt(offset);
  if (code === undefined) return "the end of the file";
  if (code === 10 || code === 13) return "the end of the line";
  return quoted(String.fromCodePoint(code));
}
