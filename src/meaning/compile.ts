import { readGrammar } from "./abnf/read.ts";
import type { Expansion, Grammar } from "./abnf/syntax.ts";
import { ambiguousNumbers } from "./ambiguity.ts";
import { ANY_WORD, buildForEar, buildForParser } from "./build.ts";
import { readConfusions } from "./confusions.ts";
import { hintsOf } from "./hints.ts";
import { readLexicon } from "./lexicon.ts";
import type { Language, Lexicon, WordNetwork } from "./network.ts";
import { GrammarError, type GrammarProblem } from "./problem.ts";

const ROOT = "utterance.abnf";

/**
 * Compiles the files of one language folder (name -> text: `*.abnf`, `lexicon.dict`, `confusions.txt`) into the
 * network that the parser and the recogniser read. Throws GrammarError with file and line of every fault: an undefined
 * rule, a rule nothing reaches, a word without a pronunciation, a `meta` that names no rule, words that are two numbers.
 */
export function compileLanguage(files: Readonly<Record<string, string>>): Language {
  const grammars = new Map<string, Grammar>();
  for (const [file, text] of Object.entries(files)) {
    if (file.endsWith(".abnf")) grammars.set(file, readGrammar(file, text));
  }
  const root = grammars.get(ROOT);
  if (!root?.root)
    throw new GrammarError([{ file: ROOT, line: 1, message: "expected this file, with a root rule" }]);
  checkReached(grammars, root.root);
  checkNamed(grammars);
  const lexicon = readLexicon("lexicon.dict", need(files, "lexicon.dict"));
  const confusions = readConfusions("confusions.txt", need(files, "confusions.txt"));
  const utterance = buildForEar(grammars, ROOT, root.root);
  checkPronounced(grammars, utterance, lexicon);
  const parser = buildForParser(grammars, ROOT, "island");
  const ambiguous = ambiguousNumbers(grammars, parser.parts);
  if (ambiguous.length > 0) throw new GrammarError(ambiguous);
  return {
    tag: root.language,
    ...parser,
    utterance,
    lexicon,
    confusions: confusions.filter((c) => c.means.length > 0),
    hints: hintsOf(grammars.values()),
    fillers: confusions.filter((c) => c.means.length === 0).map((c) => ({ words: c.heard, cost: c.cost })),
  };
}

function need(files: Readonly<Record<string, string>>, name: string): string {
  const text = files[name];
  if (text === undefined) throw new GrammarError([{ file: name, line: 1, message: "expected this file" }]);
  return text;
}

/** Every rule that a `meta` line names is there. */
function checkNamed(grammars: ReadonlyMap<string, Grammar>): void {
  const problems: GrammarProblem[] = [];
  for (const { file, meta, rules } of grammars.values()) {
    for (const name of ["parser-only", "shared"]) {
      const { words = [], line = 1 } = meta.get(name) ?? {};
      for (const rule of words) {
        if (rules.has(rule)) continue;
        problems.push({ file, line, message: `meta "${name}" names $${rule}, which is not defined here` });
      }
    }
  }
  if (problems.length > 0) throw new GrammarError(problems);
}

function checkReached(grammars: ReadonlyMap<string, Grammar>, root: string): void {
  const reached = new Set<string>();
  const visit = (file: string, name: string): void => {
    const key = `${file}#${name}`;
    if (reached.has(key)) return;
    reached.add(key);
    const rule = grammars.get(file)?.rules.get(name);
    if (rule) walk(rule.body, (part) => part.kind === "ref" && visit(part.file ?? file, part.rule));
  };
  visit(ROOT, root);
  const problems: GrammarProblem[] = [];
  for (const grammar of grammars.values()) {
    for (const rule of grammar.rules.values()) {
      if (!reached.has(`${grammar.file}#${rule.name}`)) {
        problems.push({
          file: grammar.file,
          line: rule.line,
          message: `rule $${rule.name} is reached by nothing`,
        });
      }
    }
  }
  if (problems.length > 0) throw new GrammarError(problems);
}

function checkPronounced(
  grammars: ReadonlyMap<string, Grammar>,
  network: WordNetwork,
  lexicon: Lexicon,
): void {
  const heard = new Set(network.arcs.map((arc) => arc.word));
  const problems: GrammarProblem[] = [];
  const missing = new Set<string>();
  for (const grammar of grammars.values()) {
    for (const rule of grammar.rules.values()) {
      walk(rule.body, (part) => {
        if (part.kind !== "token") return;
        for (const word of part.word.split(/\s+/)) {
          if (word === ANY_WORD || !heard.has(word) || Object.hasOwn(lexicon, word) || missing.has(word))
            continue;
          missing.add(word);
          problems.push({ file: grammar.file, line: part.line, message: `"${word}" has no pronunciation` });
        }
      });
    }
  }
  if (problems.length > 0) throw new GrammarError(problems);
}

function walk(part: Expansion, on: (part: Expansion) => unknown): void {
  on(part);
  if (part.kind === "sequence") for (const inner of part.parts) walk(inner, on);
  if (part.kind === "choice") for (const option of part.options) walk(option.of, on);
  if (part.kind === "repeat") walk(part.of, on);
}
