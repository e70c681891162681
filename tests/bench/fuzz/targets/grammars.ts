import { readGrammar } from "../../../../src/meaning/abnf/read.ts";
import { compileLanguage } from "../../../../src/meaning/compile.ts";
import { readConfusions } from "../../../../src/meaning/confusions.ts";
import { readLexicon } from "../../../../src/meaning/lexicon.ts";
import { createParser } from "../../../../src/meaning/parser.ts";
import { GrammarError } from "../../../../src/meaning/problem.ts";
import type { Chance } from "../../../support/valve/chance.ts";
import { GRAMMARS } from "../corpus.ts";
import { clearLine } from "../expect.ts";
import { broken, noise, pick } from "../mutate.ts";
import { Fault, type Target, target, type Verdict } from "../target.ts";

/** Runs a reader that may throw GrammarError, and nothing else, with faults that name their line. */
function reads(lines: number, read: () => void): Verdict {
  try {
    read();
    return "accepted";
  } catch (error) {
    if (!(error instanceof GrammarError)) throw error;
    if (error.problems.length === 0) throw new Fault("refused without a problem");
    for (const { file, line, message } of error.problems) {
      clearLine(`${file}:${line}: ${message}`);
      if (!/expected/.test(message)) throw new Fault(`nothing of what was expected: ${message}`);
      if (!(Number.isInteger(line) && line >= 1 && line <= lines))
        throw new Fault(`line ${line} of ${lines}`);
    }
    return "refused";
  }
}

const linesIn = (text: string) => text.split("\n").length;

function drawn(chance: Chance, own: readonly string[]): string {
  if (chance.is(0.02)) return noise(chance, 200);
  const text = pick(chance, own);
  return chance.is(0.03)
    ? text
    : broken(
        chance,
        text,
        GRAMMARS.map(([, other]) => other),
      );
}

const textsOf = (ending: string) =>
  GRAMMARS.filter(([file]) => file.endsWith(ending)).map(([, text]) => text);
const ABNF = textsOf(".abnf");
const LEXICON = textsOf(".dict");
const CONFUSIONS = textsOf(".txt");

/** A language of two small files with all that the form has, so that it is compiled in a millisecond. */
const SMALL: Readonly<Record<string, string>> = {
  "utterance.abnf": `#ABNF 1.0 UTF-8;
language en-US;
mode voice;
root $utterance;
tag-format <semantics/1.0-literals>;
meta "shared" is "reading";
public $utterance = $island <1-3> | [please] $island;
public $island = $reading | /0.5/ $firing {firing} | $stop;
$reading = ( co2 {quantity co2} | "flue co" {quantity co} ) $<numbers.abnf#any> [percent {unit %}];
$firing = high fire | low fire;
$stop = scratch that {strike} | $NULL never | $VOID | ( one | two three ) <0-1> never;
`,
  "numbers.abnf": `#ABNF 1.0;
language en-US;
meta "shared" is "any";
public $any = $digit <1-2> | /0.2/ point $digit <1->;
$digit = one {1} | two {2} | three {3} | // the rest
  /* is */ nine {9};
`,
  "lexicon.dict":
    "please P L IY Z\nco2 S IY\nflue F L UW\nco S\npercent P\nhigh HH AY\nfire F\nlow L OW\nscratch S\nthat DH\nnever N\none W\ntwo T\nthree TH\npoint P\nnine N\n",
  "confusions.txt": "see oh two => co2 0.5\nuh => 0.1\n*'s => * is 0\nhigher > co2 => high fire 0.2\n",
};
const SMALL_FILES = Object.keys(SMALL);

export const GRAMMAR: readonly Target[] = [
  target<string>({
    name: "grammar file (ABNF)",
    inputs: 8_000,
    draw: (chance) => drawn(chance, ABNF),
    read: (text) => reads(linesIn(text), () => readGrammar("x.abnf", text)),
  }),
  target<Readonly<Record<string, string>>>({
    name: "language, compiled",
    inputs: 5_000,
    draw: (chance) => {
      const file = pick(chance, SMALL_FILES);
      const text = SMALL[file] ?? "";
      return { ...SMALL, [file]: broken(chance, text, Object.values(SMALL)) };
    },
    read: (files) => {
      const lines = Math.max(...Object.values(files).map(linesIn));
      return reads(lines, () => {
        createParser(compileLanguage(files)).parse("high fire co2 nine");
      });
    },
  }),
  target<string>({
    name: "pronunciations",
    inputs: 5_000,
    draw: (chance) => drawn(chance, LEXICON),
    read: (text) => reads(linesIn(text), () => readLexicon("lexicon.dict", text)),
  }),
  target<string>({
    name: "confusions",
    inputs: 5_000,
    draw: (chance) => drawn(chance, CONFUSIONS),
    read: (text) => reads(linesIn(text), () => readConfusions("confusions.txt", text)),
  }),
];
