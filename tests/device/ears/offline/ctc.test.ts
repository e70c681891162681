import fc from "fast-check";
import { describe, expect, it } from "vitest";
import type { Chances } from "../../../../src/device/ears/offline/acoustic.ts";
import { align, chainOf } from "../../../../src/device/ears/offline/ctc.ts";
import { rescored } from "../../../../src/device/ears/offline/rescore.ts";

/** Two phones and a blank. */
const [A, B, BLANK] = [0, 1, 2];
const SYMBOLS = 3;

type Words = readonly (readonly (readonly number[])[])[];

const softmax = (rows: readonly (readonly number[])[]): Chances => ({
  steps: rows.length,
  symbols: SYMBOLS,
  logs: Float32Array.from(
    rows.flatMap((row) => {
      const whole = Math.log(row.reduce((sum, one) => sum + Math.exp(one), 0));
      return row.map((one) => one - whole);
    }),
  ),
});

/** All that a text may be: a pronunciation of each word. */
const spellings = (words: Words): number[][] =>
  words.reduce<number[][]>((so, ways) => so.flatMap((begun) => ways.map((way) => [...begun, ...way])), [[]]);

/** Repeats, then blanks taken out: the map B of Graves 2006, section 3.1. */
const collapsed = (path: readonly number[]): string =>
  path.filter((one, at) => one !== path[at - 1] && one !== BLANK).join("");

const paths = (steps: number): number[][] =>
  Array.from({ length: SYMBOLS ** steps }, (_, code) =>
    Array.from({ length: steps }, (_, step) => Math.floor(code / SYMBOLS ** step) % SYMBOLS),
  );

/** The definition: every path that says the text, one by one. */
function bruteForce(words: Words, { steps, logs }: Chances): { chance: number; shares: number[] } {
  const wanted = new Set(spellings(words).map((one) => one.join("")));
  const shares = new Array<number>(steps * SYMBOLS).fill(0);
  let chance = 0;
  for (const path of paths(steps)) {
    if (!wanted.has(collapsed(path))) continue;
    const one = Math.exp(path.reduce((sum, symbol, step) => sum + (logs[step * SYMBOLS + symbol] ?? 0), 0));
    chance += one;
    path.forEach((symbol, step) => {
      shares[step * SYMBOLS + symbol] = (shares[step * SYMBOLS + symbol] ?? 0) + one;
    });
  }
  return { chance, shares: shares.map((share) => share / chance) };
}

const ROWS = [
  [0.3, -0.2, 0.5],
  [1.2, 0.1, -0.4],
  [-0.7, 0.9, 0.2],
  [0.4, 0.4, 1.1],
  [-0.1, 0.8, 0.3],
];

describe("all alignments of a text, against every path one by one", () => {
  it.each<[string, Words]>([
    ["one phone", [[[A]]]],
    ["two phones of a word", [[[A, B]]]],
    ["like phones of a word need a blank between", [[[A, A]]]],
    ["and so do like phones of two words", [[[A]], [[A]]]],
    ["unlike phones of two words do not", [[[A]], [[B]]]],
    ["a word in two ways", [[[A], [B]]]],
    ["a word in two ways of other lengths", [[[A, B], [B]]]],
    [
      "between words in two ways",
      [
        [[A], [B, A]],
        [[A], [B]],
      ],
    ],
    ["three words", [[[A]], [[B], [A]], [[A]]]],
  ])("%s", (_, words) => {
    const chances = softmax(ROWS);
    const expected = bruteForce(words, chances);
    const aligned = align(chainOf(words, BLANK), chances);
    // Words whose ways spell the same twice count twice: none of these do.
    expect(new Set(spellings(words).map((one) => one.join(""))).size).toBe(spellings(words).length);
    expect(aligned?.log).toBeCloseTo(Math.log(expected.chance), 5);
    expected.shares.forEach((share, at) => {
      expect(aligned?.shares[at]).toBeCloseTo(share, 5);
    });
  });

  it.each<[string, Words, number]>([
    ["three phones in two steps", [[[A, B, A]]], 2],
    ["like phones without room for the blank", [[[A, A]]], 2],
    ["nothing was heard at all", [[[A]]], 0],
  ])("too short: %s", (_, words, steps) =>
    expect(align(chainOf(words, BLANK), softmax(ROWS.slice(0, steps)))).toBeNull(),
  );

  it("the same chance as the search's own sum over alignments", () => {
    const chances = softmax(ROWS);
    const arcs = [{ from: 0, to: 1, word: "aba", logp: 0, first: 0, length: 3 }];
    const graph = {
      nodes: 2,
      start: 0,
      end: 1,
      arcs,
      leaving: [],
      empty: [],
      phones: Uint8Array.of(A, B, A),
    };
    const step = { word: "aba", arc: 0, phones: 3, start: 0, end: 5, heard: 0, before: [] };
    const [way] = rescored([{ steps: [step], score: 0 }], graph, chances);
    const aligned = align(chainOf([[[A, B, A]]], BLANK), chances);
    const best = Math.max(
      ...paths(5)
        .filter((path) => collapsed(path) === "010")
        .map((path) => path.reduce((sum, symbol, at) => sum + (chances.logs[at * SYMBOLS + symbol] ?? 0), 0)),
    );
    expect(aligned?.log).toBeCloseTo((way?.score ?? 0) + best, 5);
  });
});

describe("the gradient", () => {
  const logit = fc.double({ min: -3, max: 3, noNaN: true });
  const rows = fc.array(fc.tuple(logit, logit, logit), { minLength: 4, maxLength: 5 });
  const way = fc.array(fc.constantFrom(A, B), { minLength: 1, maxLength: 2 });
  const text = fc.array(fc.array(way, { minLength: 1, maxLength: 2 }), { minLength: 1, maxLength: 2 });

  it("by the logits is what small changes of them do", () =>
    fc.assert(
      fc.property(rows, text, (logits, words) => {
        const chain = chainOf(words, BLANK);
        const chances = softmax(logits);
        const aligned = align(chain, chances);
        fc.pre(aligned !== null && aligned.log > -20);
        const lossAt = (step: number, symbol: number, by: number): number => {
          const moved = logits.map((row, at) =>
            row.map((one, n) => one + (at === step && n === symbol ? by : 0)),
          );
          return -(align(chain, softmax(moved))?.log ?? 0);
        };
        for (let step = 0; step < logits.length; step++) {
          for (let symbol = 0; symbol < SYMBOLS; symbol++) {
            const at = step * SYMBOLS + symbol;
            const slope = Math.exp(chances.logs[at] ?? 0) - (aligned?.shares[at] ?? 0);
            const numeric = (lossAt(step, symbol, 0.01) - lossAt(step, symbol, -0.01)) / 0.02;
            expect(Math.abs(slope - numeric)).toBeLessThan(2e-3);
          }
        }
      }),
      { numRuns: 40 },
    ));

  it("shares of each step add up to one", () =>
    fc.assert(
      fc.property(rows, text, (logits, words) => {
        const shares = align(chainOf(words, BLANK), softmax(logits))?.shares;
        fc.pre(shares !== undefined);
        for (let step = 0; step < logits.length; step++) {
          const row = shares?.subarray(step * SYMBOLS, (step + 1) * SYMBOLS) ?? [];
          expect([...row].reduce((sum, one) => sum + one, 0)).toBeCloseTo(1, 5);
        }
      }),
    ));
});
