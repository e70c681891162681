import { Culture, NumberRecognizer } from "@microsoft/recognizers-text-number";
import recognizersPackage from "@microsoft/recognizers-text-number/package.json" with { type: "json" };
import nlp from "compromise";
import { z } from "zod";
import type { Parser } from "../../src/meaning/parser.ts";
import { itemNumbers } from "../support/corpus-numbers.ts";

/** Something that finds numbers in a phrase. `work` is the least it must do for that, and what is timed. */
export interface Contender {
  readonly name: string;
  readonly work: (phrase: string) => unknown;
  readonly numbers: (phrase: string) => number[];
}

export function ours(parser: Parser): Contender {
  return {
    name: "burnerside",
    work: (phrase) => parser.parse(phrase),
    numbers: (phrase) => itemNumbers(parser.parse(phrase).items),
  };
}

/** It gives null or NaN for some words that it takes for a number ("a quarter"). */
const Num = z.number().or(z.nan()).nullable();
const CompromiseNumbers = z.array(
  z.object({ text: z.string(), number: z.object({ prefix: z.string(), num: Num }) }),
);
const CompromiseFractions = z.array(
  z.object({ text: z.string(), fraction: z.object({ decimal: z.number().nullable() }).nullable() }),
);

/**
 * `nlp(text).numbers()`; a typed minus comes back beside the number and is put on it, and what `.fractions()` reads as a
 * fraction ("1/4") counts as that instead.
 */
export function compromise(): Contender {
  return {
    name: `compromise ${nlp.version}`,
    work: (phrase) => nlp(phrase).numbers().get(),
    numbers: (phrase) => {
      const doc = nlp(phrase);
      const fractions = new Map(
        CompromiseFractions.parse(doc.fractions().json()).map(({ text, fraction }) => [
          text,
          fraction?.decimal,
        ]),
      );
      return CompromiseNumbers.parse(doc.numbers().json()).flatMap(({ text, number: { prefix, num } }) => {
        const value = fractions.get(text) ?? num;
        if (value === null || Number.isNaN(value)) return [];
        return [prefix === "-" ? -Math.abs(value) : value];
      });
    },
  };
}

/** The English number model, made once: faster than `recognizeNumber`, which looks it up for each phrase. */
export function recognizers(): Contender {
  const model = new NumberRecognizer(Culture.English).getNumberModel();
  return {
    name: `recognizers-text-number ${recognizersPackage.version}`,
    work: (phrase) => model.parse(phrase),
    numbers: (phrase) => model.parse(phrase).map(({ resolution: { value } }) => Number(value)),
  };
}
