import { quoted } from "../../measure/quoted.ts";
import { GrammarError } from "../problem.ts";

export type LexKind = "word" | "quoted" | "tag" | "rule" | "uri" | "weight" | "repeat" | "mark";

export interface Lexeme {
  readonly kind: LexKind;
  readonly text: string;
  readonly line: number;
}

// In the order they are tried. Tags first: their content is free text.
const SHAPES: readonly (readonly [LexKind | "skip", RegExp])[] = [
  ["skip", /\s+|\/\/[^\n]*|\/\*[\s\S]*?\*\//y],
  ["tag", /\{!\{([\s\S]*?)\}!\}|\{([^{}]*)\}/y],
  ["rule", /\$<([^<>\s]+)>|\$([A-Za-z_][\w-]*)/y],
  ["repeat", /<\s*(\d+\s*(?:-\s*\d*)?)\s*(?:\/[\d.]+\/)?\s*>/y],
  ["uri", /<([^<>]*)>/y],
  ["weight", /\/\s*(\d*\.?\d+)\s*\//y],
  ["quoted", /"([^"\n]*)"/y],
  ["mark", /[=;|()[\]]/y],
  ["word", /[^\s=;|()[\]{}<>$"/]+/y],
];

/** Splits one ABNF grammar file into lexemes; the self-identifying header line is checked by the reader. */
export function lex(file: string, source: string): Lexeme[] {
  const out: Lexeme[] = [];
  let at = 0;
  let line = 1;
  while (at < source.length) {
    const found = match(source, at);
    if (!found)
      throw new GrammarError([
        { file, line, message: `expected words, a rule or a tag, found ${quoted(source.slice(at, at + 1))}` },
      ]);
    if (found.kind !== "skip") out.push({ kind: found.kind, text: found.text, line });
    for (const char of source.slice(at, found.end)) if (char === "\n") line += 1;
    at = found.end;
  }
  return out;
}

function match(source: string, at: number): { kind: LexKind | "skip"; text: string; end: number } | null {
  for (const [kind, shape] of SHAPES) {
    shape.lastIndex = at;
    const hit = shape.exec(source);
    if (hit) {
      const inner = hit.slice(1).find((group) => group !== undefined);
      return { kind, text: (inner ?? hit[0]).trim(), end: shape.lastIndex };
    }
  }
  return null;
}
