import { bounded, type Problem, pathText, quoted } from "./problem.ts";

export type Json = null | boolean | number | string | Json[] | { [key: string]: Json };

export type JsonRead =
  | { readonly ok: true; readonly value: Json }
  /** `rest`: the value without what was refused, where the text is JSON, so that its other problems can be told too. */
  | { readonly ok: false; readonly problems: Problem[]; readonly rest?: Json };

/** Deeper than any file of ours by far, shallower than any call stack. */
const DEEPEST = 64;

/**
 * Reads JSON (RFC 8259) from a file that may be hostile. Unlike `JSON.parse` it says where and what in the same words
 * on every engine, refuses a key given twice (of two limits, which one counts?), `__proto__` and deep nesting.
 */
export function readJson(text: string): JsonRead {
  const reader = new Reader(text);
  try {
    const value = reader.document();
    if (reader.problems.length === 0) return { ok: true, value };
    return { ok: false, problems: bounded(reader.problems), rest: value };
  } catch (error) {
    if (!(error instanceof SyntaxStop)) throw error;
    return { ok: false, problems: bounded([...reader.problems, error.problem]) };
  }
}

/** All problems of a text: those of its JSON, and those that `inValue` finds in what could be read. */
export function problemsIn(read: JsonRead, inValue: (value: Json) => readonly Problem[]): Problem[] {
  if (read.ok) return bounded(inValue(read.value));
  return bounded([...read.problems, ...(read.rest === undefined ? [] : inValue(read.rest))]);
}

/** Leaves the recursion at the first place where the text is no longer JSON. */
class SyntaxStop extends Error {
  readonly problem: Problem;
  constructor(problem: Problem) {
    super(problem.message);
    this.problem = problem;
  }
}

const SPACE = /[ \t\n\r]*/y;
/** All that may stand in a text unescaped: everything from the space up but " and the backslash. */
const PLAIN = /[ !#-[\]-\uffff]*/y;
const LINE_END = /\r\n|\n|\r/g;
const NUMBER = /-?(?:0|[1-9]\d*)(?:\.\d+)?(?:[eE][+-]?\d+)?/y;
const HEX = /[0-9a-fA-F]{4}/y;
const WORDS: readonly (readonly [string, Json])[] = [
  ["true", true],
  ["false", false],
  ["null", null],
];
const ESCAPES: Readonly<Record<string, string>> = {
  '"': '"',
  "\\": "\\",
  "/": "/",
  b: "\b",
  f: "\f",
  n: "\n",
  r: "\r",
  t: "\t",
};

class Reader {
  readonly problems: Problem[] = [];
  private at = 0;
  private line = 0;
  private lineStart = 0;
  private nextLine = 0;
  private readonly path: (string | number)[] = [];
  private readonly text: string;

  constructor(text: string) {
    this.text = text;
  }

  document(): Json {
    if (this.text.startsWith("\uFEFF")) this.at = 1;
    const value = this.value();
    this.take(SPACE);
    if (this.at < this.text.length) this.stop("expected the end of the file");
    return value;
  }

  private value(): Json {
    this.take(SPACE);
    const next = this.text[this.at];
    if (next === "{") return this.nested(() => this.object());
    if (next === "[") return this.nested(() => this.list());
    if (next === '"') return this.string();
    const number = this.take(NUMBER);
    if (number !== "") return Number(number);
    for (const [word, value] of WORDS) {
      if (!this.text.startsWith(word, this.at)) continue;
      this.at += word.length;
      return value;
    }
    return this.stop("expected a value");
  }

  private nested<T>(read: () => T): T {
    if (this.path.length >= DEEPEST) {
      this.path.length = 0;
      this.stop(`expected at most ${DEEPEST} levels of nesting`, "more");
    }
    this.at += 1;
    return read();
  }

  private object(): Json {
    const object: { [key: string]: Json } = {};
    this.take(SPACE);
    if (this.accept("}")) return object;
    do {
      this.take(SPACE);
      if (this.text[this.at] !== '"') this.stop('expected a field name in quotes ("…")');
      const start = this.at;
      const key = this.string();
      this.take(SPACE);
      if (!this.accept(":")) this.stop("expected a colon after the field name");
      this.path.push(key);
      if (key === "__proto__") this.report(start, 'expected a field of this format, found "__proto__"');
      if (Object.hasOwn(object, key))
        this.report(start, `expected each field once, found ${quoted(key)} again`);
      const value = this.value();
      if (key !== "__proto__") object[key] = value;
      this.path.pop();
      this.take(SPACE);
    } while (this.accept(","));
    if (!this.accept("}")) this.stop("expected a comma or }");
    return object;
  }

  private list(): Json {
    const list: Json[] = [];
    this.take(SPACE);
    if (this.accept("]")) return list;
    do {
      this.path.push(list.length);
      list.push(this.value());
      this.path.pop();
      this.take(SPACE);
    } while (this.accept(","));
    if (!this.accept("]")) this.stop("expected a comma or ]");
    return list;
  }

  private string(): string {
    this.at += 1;
    let string = "";
    for (;;) {
      string += this.take(PLAIN);
      if (this.accept('"')) return string;
      if (!this.accept("\\")) this.stop('expected the closing " of a text');
      string += this.escape();
    }
  }

  private escape(): string {
    const plain = ESCAPES[this.text[this.at] ?? ""];
    if (plain !== undefined) {
      this.at += 1;
      return plain;
    }
    if (!this.accept("u")) this.stop('expected one of " \\ / b f n r t u after a backslash');
    const hex = this.take(HEX);
    if (hex === "") this.stop("expected four hexadecimal digits after \\u");
    return String.fromCharCode(Number.parseInt(hex, 16));
  }

  private take(pattern: RegExp): string {
    pattern.lastIndex = this.at;
    const taken = pattern.exec(this.text)?.[0] ?? "";
    this.at += taken.length;
    return taken;
  }

  private accept(character: string): boolean {
    if (this.text[this.at] !== character) return false;
    this.at += 1;
    return true;
  }

  private report(offset: number, sentence: string): void {
    this.problems.push({ path: pathText(this.path), message: `${this.place(offset)}: ${sentence}.` });
  }

  private stop(expected: string, what = this.here()): never {
    throw new SyntaxStop({
      path: pathText(this.path),
      message: `${this.place(this.at)}: ${expected}, found ${what}.`,
    });
  }

  private here(): string {
    const code = this.text.codePointAt(this.at);
    if (code === undefined) return "the end of the file";
    if (code === 10 || code === 13) return "the end of the line";
    return quoted(String.fromCodePoint(code));
  }

  /** Line and column from 1. Offsets only ever grow, so the text is walked once however many problems there are. */
  private place(offset: number): string {
    while (this.nextLine <= offset) {
      this.line += 1;
      this.lineStart = this.nextLine;
      LINE_END.lastIndex = this.lineStart;
      this.nextLine = LINE_END.test(this.text) ? LINE_END.lastIndex : Number.POSITIVE_INFINITY;
    }
    return `Line ${this.line}, column ${offset - this.lineStart + 1}`;
  }
}
