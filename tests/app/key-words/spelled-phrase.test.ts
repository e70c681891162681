import fc from "fast-check";
import { describe, expect, test } from "vitest";
import { takeTurn } from "../../../src/answer/turn.ts";
import {
  type Figure,
  type FigureWord,
  isWhole,
  mayFollow,
  numeralOf,
} from "../../../src/app/key-words/figures.ts";
import { spelledPhrase } from "../../../src/app/key-words/spelled-phrase.ts";
import { QUANTITY_IDS, quantityOf } from "../../../src/measure/quantity.ts";
import { parser } from "../../support/talk.ts";
import { visitOf } from "../build.ts";

const WORDS: FigureWord[] = [
  "zero",
  "one",
  "two",
  "three",
  "four",
  "five",
  "six",
  "seven",
  "eight",
  "nine",
  "point",
  "minus",
];

/** What a confirmed value adds to the log of a visit. */
function logged(...given: Parameters<typeof spelledPhrase>) {
  let ids = 0;
  const at = "2026-11-25T08:00:00.000Z";
  return takeTurn(parser, visitOf(), spelledPhrase(...given), at, () => `e${ids++}`).entries;
}

const figures = (words: readonly FigureWord[], confidence = 0.9): Figure[] =>
  words.map((word) => ({ word, confidence }));

describe("a confirmed value", () => {
  const co2 = { quantity: "co2", firing: "high", condition: null } as const;

  test("is logged with its words, by key words, as sure as the least sure of them", () => {
    const given = [...figures(["nine", "point"]), { word: "two", confidence: 0.6 } as const];
    expect(logged(co2, given)).toMatchObject([
      {
        engine: "key-words",
        phrase: "High fire CO2 9.2",
        confidence: 0.6,
        body: { kind: "reading", quantity: "co2", value: 9.2, firing: "high" },
      },
    ]);
  });

  test("that cannot be is asked about, as ever", () =>
    expect(logged(co2, figures(["nine", "two"]))).toMatchObject([
      { body: { kind: "unsure", unsure: { candidates: [{ quantity: "co2", value: 9.2 }] } } },
    ]));

  test("of a condition keeps it", () =>
    expect(
      logged(
        { quantity: "gas-pressure-inlet", firing: null, condition: "static" },
        figures(["two", "zero", "point", "five"]),
      ),
    ).toMatchObject([{ body: { kind: "reading", value: 20.5, condition: "static" } }]));

  test("whatever it is, is logged as just that number, of just that quantity, or not at all", () => {
    const asked = fc.record({
      quantity: fc.constantFrom(...QUANTITY_IDS),
      firing: fc.constantFrom("high", "low", null),
      condition: fc.constant(null),
    });
    const given = fc.array(fc.constantFrom(...WORDS), { minLength: 1, maxLength: 8 }).map((words) => {
      const taken: Figure[] = [];
      for (const word of words) if (mayFollow(taken, word)) taken.push({ word, confidence: 0.6 });
      return taken;
    });
    const read = new Set<string>();
    fc.assert(
      fc.property(asked, given.filter(isWhole), (of, number) => {
        const bodies = logged(of, number).map(({ body }) => body);
        const kinds = bodies.map(({ kind }) => kind).filter((kind) => kind !== "firing");
        // What is usual is logged, or asked about; some that never are is nothing to the parser, and that is told.
        const [from, to] = quantityOf(of.quantity).usual;
        const value = Number(numeralOf(number));
        expect(kinds).toEqual(
          (from <= value && value <= to) || kinds.length > 0
            ? [expect.stringMatching(/^(?:reading|unsure)$/)]
            : [],
        );
        for (const body of bodies) {
          if (body.kind !== "reading") continue;
          expect(body.quantity).toBe(of.quantity);
          expect(body.value + 0).toBe(Number(numeralOf(number)) + 0);
          read.add(of.quantity);
        }
      }),
      { numRuns: 600, seed: 9 },
    );
    expect([...read].sort()).toEqual([...QUANTITY_IDS].sort());
  });
});
