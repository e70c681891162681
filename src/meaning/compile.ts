import { named, quoted } from "../measure/quoted.ts";
import { readGrammar } from "./abnf/read.ts";
import type { Expansion, Grammar } from "./abnf/syntax.ts";
import { ambiguousNumbers } from "./ambiguity.ts";
import { ANY_WORD, buildForEar, buildForParser } from "./build.ts";
import { readConfusions } from "./confusions.ts";
import { hintsOf } from "./hints.ts";
import { readLexicon } from "./lexicon.ts";
import type { Language, Lexicon, StartLanguage, WordNetwork } from "./network.ts";
import { GrammarError, type GrammarProblem } from "./problem.ts";

const ROOT = "utterance.abnf";
const START = "start.abnf";

/**
 * Compiles the files of one language folder (name -> text: `*.abnf`, `lexicon.dict`, `confusions.txt`) into the
 * network that the parser and the recogniser read. Throws GrammarError with file and line of every fault: an undefined
 * rule, a rule nothing reaches, a word without a pronunciation, a `meta` that names no rule, words that are two numbers.
 */
export function compileLanguage(files: Readonly<Record<string, string>>): Language {
  const grammars = readGrammars(files);
  const root = rootOf(grammars, ROOT);
  const lexicon = readLexicon("lexicon.dict", need(files, "lexicon.dict"));
  const confusions = readConfusions("confusions.txt", need(files, "confusions.txt"));
  const utterance = buildForEar(grammars, ROOT, root.rule);
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

/** Compiles the language of the start page from the same folder, with only the pronunciations that it needs. Throws as above. */
export function compileStart(files: Readonly<Record<string, string>>): StartLanguage {
  const grammars = readGrammars(files);
  const root = rootOf(grammars, START);
  const lexicon = readLexicon("lexicon.dict", need(files, "lexicon.dict"));
  const utterance = buildForEar(grammars, START, root.rule);
  checkPronounced(grammars, utterance, lexicon);
  const words = new Set(utterance.arcs.map(({ word }) => word));
  return {
    tag: root.language,
    piece: buildForParser(grammars, START, "piece").island,
    utterance,
    lexicon: Object.fromEntries(Object.entries(lexicon).filter(([word]) => words.has(word))),
    hints: hintsOf(grammars.values()),
  };
}

function readGrammars(files: Readonly<Record<string, string>>): ReadonlyMap<string, Grammar> {
  const grammars = new Map<string, Grammar>();
  for (const [file, text] of Object.entries(files)) {
    if (file.endsWith(".abnf")) grammars.set(file, readGrammar(file, text));
  }
  checkReached(grammars);
  checkNamed(grammars);
  return grammars;
}

function rootOf(grammars: ReadonlyMap<string, Grammar>, file: string): { rule: string; language: string } {
  const grammar = grammars.get(file);
  if (!grammar?.root)
    throw new GrammarError([{ file, line: 1, message: "expected this file, with a root rule" }]);
  return { rule: grammar.root, language: grammar.language };
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
        problems.push({
          file,
          line,
          message: `meta "${name}" names $${named(rule)}, which is not defined here: expected a rule of this file`,
        });
      }
    }
  }
  if (problems.length > 0) throw new GrammarError(problems);
}

/** Every rule is reached from the root of some file, or is a piece of it that a reader takes by itself. */
function checkReached(grammars: ReadonlyMap<string, Grammar>): void {
  const reached = new Set<string>();
  const waiting: [file: string, name: string][] = [];
  for (const { file, root } of grammars.values()) if (root !== null) waiting.push([file, root]);
  if (grammars.has(START)) waiting.push([START, "piece"]);
  for (let next = waiting.pop(); next; next = waiting.pop()) {
    const [file, name] = next;
    const key = `${file}#${name}`;
    if (reached.has(key)) continue;
    reached.add(key);
    const rule = grammars.get(file)?.rules.get(name);
    if (rule) walk(rule.body, (part) => part.kind === "ref" && waiting.push([part.file ?? file, part.rule]));
  }
  const problems: GrammarProblem[] = [];
  for (const grammar of grammars.values()) {
    for (const rule of grammar.rules.values()) {
      if (!reached.has(`${grammar.file}#${rule.name}`)) {
        problems.push({
          file: grammar.file,
          line: rule.line,
          message: `rule $${named(rule.name)} is reached by nothing: expected another that refers to it`,
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
          problems.push({
            file: grammar.file,
            line: part.line,
            message: `${quoted(word)} has no pronunciation: expected one in lexicon.dict`,
          });
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
