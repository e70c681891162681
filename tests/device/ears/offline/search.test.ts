import fc from "fast-check";
import { describe, expect, it } from "vitest";
import type { Chances } from "../../../../src/device/ears/offline/acoustic.ts";
import { createBeam } from "../../../../src/device/ears/offline/beam.ts";
import { closes } from "../../../../src/device/ears/offline/close.ts";
import { phoneGraph } from "../../../../src/device/ears/offline/graph.ts";
import { rescored } from "../../../../src/device/ears/offline/rescore.ts";
import { evidence, judge } from "../../../../src/device/ears/offline/trust.ts";
import type { EarLanguage } from "../../../../src/meaning/network.ts";
import { NO_HINTS } from "../../../support/speech/no-hints.ts";

/** Three phones and a blank; words of one and two phones, any after any. */
const PHONES = ["A", "B", "C"];
const LEXICON = { a: ["A"], ab: ["A B"], bc: ["B C"], cc: ["C C"] };
const LANGUAGE: EarLanguage = {
  tag: "en",
  utterance: {
    states: 2,
    start: 0,
    end: 1,
    arcs: [
      ...Object.keys(LEXICON).map((word) => ({ from: 0, to: 0, word, logp: 0, tag: null })),
      { from: 0, to: 1, word: null, logp: 0, tag: null },
    ],
  },
  lexicon: LEXICON,
  hints: { ...NO_HINTS, points: ["bc"], numerals: ["a"] },
};
const GRAPH = phoneGraph(LANGUAGE, PHONES);
const WIDE = { grammarWeight: 1, wordCost: 0, otherCost: 1000, width: 1000 };

/** Rows of chances of A, B, C and blank. */
const chances = (rows: readonly (readonly number[])[]): Chances => ({
  steps: rows.length,
  symbols: 4,
  logs: Float32Array.from(
    rows.flatMap((row) => row.map((x) => Math.log(x / row.reduce((a, b) => a + b, 0)))),
  ),
});
/** A row for each letter, `-` for the blank, clear unless a chance is given. */
const clear = (said: string, chance = 0.97): Chances =>
  chances(
    [...said].map((letter) =>
      ["A", "B", "C", "-"].map((one) => (one === letter ? chance : (1 - chance) / 3)),
    ),
  );

const heard = (sound: Chances, tuning = WIDE): string[] =>
  createBeam(GRAPH, tuning)(sound, 5).ways.map(({ steps }) => steps.map(({ word }) => word).join(" "));

describe("the search", () => {
  it.each([
    ["one word", "-A-B-", "ab"],
    ["a phone drawn out is one phone", "-AAA-BB--", "ab"],
    ["no blank is needed between unlike phones", "AB", "ab"],
    ["like phones of a word need a blank between", "-C-C-", "cc"],
    ["and so do like phones of two words", "A-A", "a a"],
    ["one phone drawn out is not two words", "AAA", "a"],
    ["several words", "-A-B--B-C-A--", "ab bc a"],
  ])("%s: %s", (_, said, expected) => expect(heard(clear(said))[0]).toBe(expected));

  it("what is passed over between words is found out by the fit", () => {
    const [whole, broken] = ["-A-B--A-", "-A-C-A-"].map((said) =>
      evidence({ ...createBeam(GRAPH, WIDE)(clear(said), 5), chances: clear(said) }),
    );
    expect(whole?.fit).toBeCloseTo(0, 1);
    expect(broken?.fit).toBeLessThan(-1);
  });
  it("other speech before the first word is passed over where that is cheap", () => {
    const cheap = { ...WIDE, otherCost: 0.5 };
    expect(heard(clear("-C--A-B-"), cheap)[0]).toBe("ab");
  });
  it("the ways are the best of all ways, each once, best first", () => {
    const row = fc.array(fc.double({ min: 0.01, max: 1, noNaN: true }), { minLength: 4, maxLength: 4 });
    fc.assert(
      fc.property(fc.array(row, { minLength: 2, maxLength: 6 }), (rows) => {
        const sound = chances(rows);
        const { ways } = createBeam(GRAPH, WIDE)(sound, 3);
        expect(new Set(ways.map(wordsOf)).size).toBe(ways.length);
        expect(ways.every(({ score }, at) => score <= (ways[at - 1]?.score ?? 0) + 1e-9)).toBe(true);
        const best = bruteForce(sound, Math.max);
        if (ways[0]) expect(ways[0].score).toBeCloseTo(Math.max(...best.values()), 4);
        else expect(best.size).toBe(0);
      }),
      { numRuns: 200 },
    );
  });
  it("rescoring adds up every alignment, as counting them one by one does", () => {
    const row = fc.array(fc.double({ min: 0.01, max: 1, noNaN: true }), { minLength: 4, maxLength: 4 });
    const sum = (a: number, b: number): number => Math.log(Math.exp(a) + Math.exp(b));
    fc.assert(
      fc.property(fc.array(row, { minLength: 2, maxLength: 6 }), (rows) => {
        const sound = chances(rows);
        const [best] = createBeam(GRAPH, WIDE)(sound, 1).ways;
        // Where the word begins later, what came before it is not added up anew.
        fc.pre(best?.steps[0]?.start === 0);
        const [way] = rescored(best ? [best] : [], GRAPH, sound);
        expect(way?.score).toBeCloseTo(bruteForce(sound, sum).get(way ? wordsOf(way) : "") ?? Number.NaN, 3);
      }),
      { numRuns: 100 },
    );
  });
});

const wordsOf = ({ steps }: { steps: readonly { word: string }[] }): string =>
  steps.map(({ word }) => word).join(" ");

/** Every row of symbols there can be, collapsed (repeats, then blanks), and read as words: score by word sequence. */
function bruteForce(sound: Chances, join: (a: number, b: number) => number): Map<string, number> {
  const readings = wordSequences(sound.steps);
  const out = new Map<string, number>();
  const rows = 4 ** sound.steps;
  for (let row = 0; row < rows; row++) {
    let score = 0;
    let before = 3;
    let phones = "";
    for (let step = 0, rest = row; step < sound.steps; step++, rest = Math.floor(rest / 4)) {
      const symbol = rest % 4;
      score += sound.logs[step * 4 + symbol] ?? 0;
      if (symbol !== 3 && symbol !== before) phones += PHONES[symbol];
      before = symbol;
    }
    for (const words of readings.get(phones) ?? []) {
      const known = out.get(words);
      out.set(words, known === undefined ? score : join(known, score));
    }
  }
  return out;
}

/** Phones -> the word sequences that are pronounced so, of at most so many phones. */
function wordSequences(most: number): Map<string, string[]> {
  const out = new Map<string, string[]>();
  const grow = (words: string[], phones: string): void => {
    if (words.length > 0) out.set(phones, [...(out.get(phones) ?? []), words.join(" ")]);
    for (const [word, [way = ""]] of Object.entries(LEXICON)) {
      const next = phones + way.replaceAll(" ", "");
      if (next.length <= most) grow([...words, word], next);
    }
  };
  grow([], "");
  return out;
}

describe("confidence", () => {
  const judged = (sound: Chances) => judge({ ...createBeam(GRAPH, WIDE)(sound, 5), chances: sound });
  it("lies between 0 and 1, and all ways together have at most 1", () => {
    const row = fc.array(fc.double({ min: 0.01, max: 1, noNaN: true }), { minLength: 4, maxLength: 4 });
    fc.assert(
      fc.property(fc.array(row, { minLength: 1, maxLength: 12 }), (rows) => {
        const { hypotheses } = judged(chances(rows));
        const sum = hypotheses.reduce((all, { confidence }) => all + confidence, 0);
        expect(hypotheses.every(({ confidence }) => confidence >= 0)).toBe(true);
        expect(sum).toBeLessThanOrEqual(1 + 1e-9);
      }),
    );
  });
  it("falls as the sound grows unclear", () => {
    const [sure, less] = [0.97, 0.6].map(
      (chance) => judged(clear("-A-B--B-C-", chance)).hypotheses[0]?.confidence ?? 0,
    );
    expect(sure).toBeGreaterThan(0.7);
    expect(less).toBeLessThan(sure ?? 0);
  });
  it("nothing heard is rejected", () => expect(judged(clear("----")).rejected).toBe(true));
});

describe("whether a breath is the end", () => {
  const way = (sound: string) => createBeam(GRAPH, WIDE)(clear(sound), 1).ways[0];
  // Here "a" is a number word and "bc" the point: any word may be followed by both.
  it.each([
    ["a number may go on", "-A-B-", false],
    ["not after the point and a digit", "-B-C--A-B-", true],
    ["the point itself goes on", "-A-B--B-C-", false],
  ])("%s", (_, sound, expected) => expect(closes(GRAPH, LANGUAGE.hints, way(sound))).toBe(expected));
  it("nothing heard is no end", () => expect(closes(GRAPH, LANGUAGE.hints, undefined)).toBe(false));
});

describe("a language that the ear cannot hear", () => {
  it("a word without a pronunciation is named", () =>
    expect(() => phoneGraph({ ...LANGUAGE, lexicon: { ...LEXICON, a: [] } }, PHONES)).toThrow('"a"'));
  it("a phone that the model does not know is named", () =>
    expect(() => phoneGraph({ ...LANGUAGE, lexicon: { ...LEXICON, a: ["Q"] } }, PHONES)).toThrow("Q"));
});
