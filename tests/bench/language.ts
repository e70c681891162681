/**
 * How fast and how right the parser reads, beside two general-purpose number parsers: `npm run bench`, and
 * `npm run bench -- --quick` for a rough look. What is counted and how: README.md beside this file.
 */
import { loadLanguage } from "../../src/cli/language.ts";
import { createParser, type Parser } from "../../src/meaning/parser.ts";
import { corpora, corpusLines } from "../support/corpus.ts";
import { expectedNumbers, matchNumbers } from "../support/corpus-numbers.ts";
import { adversaries } from "./adversaries.ts";
import { type Contender, compromise, ours, recognizers } from "./peers.ts";

const QUICK = process.argv.includes("--quick");
const ROUNDS = QUICK ? 5 : 25;
const ROUND_MS = QUICK ? 100 : 300;
const WARM_UP_MS = QUICK ? 500 : 2000;
/** Of the adversarial phrases, one in so many. */
const SAMPLE = QUICK ? 10 : 1;
const PARSERS_MADE = 20;
const GOAL_PER_SECOND = 20_000;
const GOAL_WORST_MS = 5;

interface Case {
  readonly phrase: string;
  readonly expected: string;
  /** Talk: nothing of it belongs in the log. */
  readonly talk: boolean;
}

const corpus = (): Case[] =>
  corpora().flatMap((file) =>
    corpusLines(file)
      .filter(({ phrase }) => phrase.trim() !== "")
      .map(({ phrase, expected }) => ({ phrase, expected, talk: expected === "-" })),
  );

function timed(work: () => unknown): number {
  const start = performance.now();
  work();
  return performance.now() - start;
}

function median(values: readonly number[]): number {
  return [...values].sort((a, b) => a - b)[Math.floor(values.length / 2)] ?? Number.NaN;
}

/** Phrases a second, of several rounds after one to warm up: the whole corpus as often as fits into a round. */
function speedOf({ work }: Contender, phrases: readonly string[]): { median: number; worst: number } {
  const round = (length: number): number => {
    let done = 0;
    let spent = 0;
    while (spent < length) {
      spent += timed(() => phrases.forEach(work));
      done += phrases.length;
    }
    return (1000 * done) / spent;
  };
  round(WARM_UP_MS);
  const rounds = Array.from({ length: ROUNDS }, () => round(ROUND_MS));
  return { median: median(rounds), worst: Math.min(...rounds) };
}

/** Slower than this is measured once: no run of the machine's other work makes it that slow. */
const HOPELESS_MS = 100;

/** The slowest of some phrases: each timed once, then the ten slowest again, as the median of nine runs. */
function slowest(parser: Parser, phrases: readonly string[]): { phrase: string; ms: number } {
  const once = phrases.map((phrase) => ({ phrase, ms: timed(() => parser.parse(phrase)) }));
  once.sort((a, b) => b.ms - a.ms);
  const again = once.slice(0, 10).map(({ phrase, ms }) => ({
    phrase,
    ms: ms > HOPELESS_MS ? ms : median(Array.from({ length: 9 }, () => timed(() => parser.parse(phrase)))),
  }));
  return again.reduce((worst, other) => (other.ms > worst.ms ? other : worst), { phrase: "", ms: 0 });
}

/** Numbers right, of how many, and given though not expected: in phrases for the log and in talk. */
function accuracyOf({ numbers }: Contender, cases: readonly Case[], peer: boolean) {
  const sum = { right: 0, of: 0, extra: 0, talk: 0 };
  for (const { phrase, expected, talk } of cases) {
    const meant = expectedNumbers(expected);
    const { right, extra } = matchNumbers(meant.numbers, numbers(phrase));
    sum.of += meant.numbers.length;
    sum.right += right;
    // Where the parser is to ask, a number was said: a peer that finds it does no wrong.
    if (talk) sum.talk += extra;
    else if (!peer || !meant.asks) sum.extra += extra;
  }
  return sum;
}

function print(...cells: readonly (string | number)[]): void {
  const [first = "", ...rest] = cells;
  process.stdout.write(
    `${String(first).padEnd(42)}${rest.map((cell) => String(cell).padStart(14)).join("")}\n`,
  );
}

const whole = (value: number): string => Math.round(value).toLocaleString("en-GB").replaceAll(",", " ");
const verdict = (met: boolean): string => (met ? "met" : "not met");

const language = loadLanguage();
const first = timed(() => createParser(language));
const parser = createParser(language);
const made = median(Array.from({ length: PARSERS_MADE }, () => timed(() => createParser(language))));
const cases = corpus();
const phrases = cases.map(({ phrase }) => phrase);
const own = ours(parser);
const peers = [compromise(), recognizers()];

print(`Speed, ${phrases.length} phrases, phrases a second`, "median", "worst round", "goal");
for (const contender of [own, ...peers]) {
  const { median: usual, worst } = speedOf(contender, phrases);
  const goal = contender === own ? [whole(GOAL_PER_SECOND), verdict(usual >= GOAL_PER_SECOND)] : [];
  print(contender.name, whole(usual), whole(worst), ...goal);
}

print("");
print("Making the parser, ms", "first", "later, median");
print(own.name, first.toFixed(1), made.toFixed(1));

print("");
print("60 words, ms", "phrases", "slowest", "goal");
let hardest = { phrase: "", ms: 0 };
for (const { name, phrases: all } of adversaries(language, phrases)) {
  const some = all.filter((_, i) => i % SAMPLE === 0);
  const worst = slowest(parser, some);
  if (worst.ms > hardest.ms) hardest = worst;
  print(name, some.length, worst.ms.toFixed(2), `below ${GOAL_WORST_MS}`, verdict(worst.ms < GOAL_WORST_MS));
}
print(`slowest of all: "${hardest.phrase}"`);

print("");
const talk = cases.filter((each) => each.talk).length;
print("Numbers of the corpus", "right", "of", "share", "not expected", `in talk (${talk})`);
for (const contender of [own, ...peers]) {
  const { right, of, extra, talk: inTalk } = accuracyOf(contender, cases, contender !== own);
  print(contender.name, right, of, `${((100 * right) / of).toFixed(1)} %`, extra, inTalk);
}
