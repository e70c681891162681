import { named, quoted } from "../../measure/quoted.ts";
import { GrammarError, type GrammarProblem } from "../problem.ts";
import { type Lexeme, lex } from "./lex.ts";
import type { Expansion, Grammar, Meta, Rule, Weighted } from "./syntax.ts";

const HEADER = /^#ABNF 1\.0( [\w-]+)?;/;
/** Brackets one inside the other: more than anybody can follow, fewer than any call stack. */
const DEEPEST = 64;
const TAG_FORMAT = "semantics/1.0-literals";

/**
 * Reads one grammar file in the ABNF form of W3C SRGS 1.0 (Recommendation, 16 March 2004): header, `language`,
 * `root`, `tag-format`, `meta`, rules with alternatives, weights, repeats, tags and references to other files
 * (`$<numbers.abnf#percent>`). Throws GrammarError with file and line.
 */
export function readGrammar(file: string, source: string): Grammar {
  if (!HEADER.test(source)) fail(file, 1, 'expected the header "#ABNF 1.0 UTF-8;"');
  return new Reader(file, lex(file, source.replace(HEADER, ""))).grammar();
}

function fail(file: string, line: number, message: string): never {
  throw new GrammarError([{ file, line, message }]);
}

class Reader {
  private at = 0;
  private depth = 0;
  private readonly problems: GrammarProblem[] = [];

  constructor(
    private readonly file: string,
    private readonly lexemes: readonly Lexeme[],
  ) {}

  grammar(): Grammar {
    let language = "";
    let root: string | null = null;
    const meta = new Map<string, Meta>();
    const rules = new Map<string, Rule>();
    while (this.peek()) {
      const head = this.next();
      if (head.kind === "rule" || head.text === "public" || head.text === "private") {
        const rule = this.rule(head);
        if (rules.has(rule.name))
          this.problem(rule.line, `rule $${named(rule.name)} is defined twice: expected it once`);
        rules.set(rule.name, rule);
        continue;
      }
      switch (head.text) {
        case "language":
          language = this.next().text;
          break;
        case "root":
          root = this.next().text;
          break;
        case "mode":
          if (this.next().text !== "voice") this.problem(head.line, "expected mode voice");
          break;
        case "tag-format":
          if (this.next().text !== TAG_FORMAT) this.problem(head.line, `expected tag-format <${TAG_FORMAT}>`);
          break;
        case "meta": {
          const name = this.next().text;
          this.expect("is");
          meta.set(name, { words: this.next().text.split(/\s+/).filter(Boolean), line: head.line });
          break;
        }
        default:
          fail(this.file, head.line, `expected a declaration or a rule, found ${quoted(head.text)}`);
      }
      this.expect(";");
    }
    if (language === "") this.problem(1, "expected a language declaration");
    if (this.problems.length > 0) throw new GrammarError(this.problems);
    return { file: this.file, language, root, meta, rules };
  }

  private rule(head: Lexeme): Rule {
    const name = head.kind === "rule" ? head : this.next();
    this.expect("=");
    const body = this.choice();
    this.expect(";");
    return { name: name.text, isPublic: head.text === "public", body, line: name.line };
  }

  private choice(): Expansion {
    if (this.depth >= DEEPEST)
      fail(this.file, this.line(), `expected at most ${DEEPEST} brackets one inside the other`);
    this.depth += 1;
    const options: Weighted[] = [];
    do {
      let weight = 1;
      if (this.peek()?.kind === "weight") weight = Number(this.next().text);
      if (!(weight > 0)) this.problem(this.line(), "expected a weight above zero");
      options.push({ weight, of: this.sequence() });
    } while (this.take("|"));
    this.depth -= 1;
    const [only] = options;
    return only && options.length === 1 ? only.of : { kind: "choice", options };
  }

  private sequence(): Expansion {
    const parts: Expansion[] = [];
    for (let head = this.peek(); head && !this.endsSequence(head); head = this.peek()) {
      if (head.kind === "repeat") {
        this.at += 1;
        const last = parts.pop();
        if (!last) fail(this.file, head.line, "expected something to repeat before <>");
        parts.push({ kind: "repeat", of: last, ...range(head.text) });
      } else parts.push(this.part());
    }
    if (parts.length === 0) fail(this.file, this.line(), "expected words, a rule or a tag");
    const [only] = parts;
    return only && parts.length === 1 ? only : { kind: "sequence", parts };
  }

  private endsSequence(lexeme: Lexeme): boolean {
    return lexeme.kind === "mark" && ["|", ")", "]", ";"].includes(lexeme.text);
  }

  private part(): Expansion {
    const head = this.next();
    const { line } = head;
    switch (head.kind) {
      case "word":
      case "quoted":
        return { kind: "token", word: head.text.toLowerCase(), line };
      case "tag":
        return { kind: "tag", tag: head.text, line };
      case "rule":
        return reference(head);
      case "mark": {
        if (head.text !== "(" && head.text !== "[") break;
        const inner = this.choice();
        this.expect(head.text === "(" ? ")" : "]");
        return head.text === "(" ? inner : { kind: "repeat", of: inner, min: 0, max: 1 };
      }
      default:
    }
    return fail(this.file, line, `expected words, a rule or a tag, found ${quoted(head.text)}`);
  }

  private peek(): Lexeme | undefined {
    return this.lexemes[this.at];
  }

  private line(): number {
    return this.peek()?.line ?? this.lexemes.at(-1)?.line ?? 1;
  }

  private next(): Lexeme {
    const lexeme = this.peek();
    if (!lexeme)
      return fail(
        this.file,
        this.line(),
        "expected the rest of a declaration or rule, found the end of the file",
      );
    this.at += 1;
    return lexeme;
  }

  private take(mark: string): boolean {
    const hit = this.peek()?.text === mark;
    if (hit) this.at += 1;
    return hit;
  }

  private expect(text: string): void {
    const found = this.next();
    if (found.text !== text) fail(this.file, found.line, `expected "${text}", found ${quoted(found.text)}`);
  }

  private problem(line: number, message: string): void {
    this.problems.push({ file: this.file, line, message });
  }
}

function range(text: string): { min: number; max: number | null } {
  const [min = "0", max] = text.split("-").map((side) => side.trim());
  if (max === undefined) return { min: Number(min), max: Number(min) };
  return { min: Number(min), max: max === "" ? null : Number(max) };
}

function reference({ text, line }: Lexeme): Expansion {
  if (text === "NULL" || text === "VOID" || text === "GARBAGE") return { kind: "special", name: text, line };
  const [file, rule] = text.split("#");
  return rule === undefined
    ? { kind: "ref", file: null, rule: text, line }
    : { kind: "ref", file: file ?? null, rule, line };
}
