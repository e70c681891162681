import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { loadLanguage } from "../../src/cli/language.ts";
import { ANY_WORD } from "../../src/meaning/build.ts";
import { doubt } from "../../src/meaning/doubt.ts";
import { Meaning } from "../../src/meaning/item.ts";
import type { Arc, WordNetwork } from "../../src/meaning/network.ts";
import { createParser } from "../../src/meaning/parser.ts";
import { MARGIN } from "../../src/meaning/path.ts";
import { type Piece, pieceOf } from "../../src/meaning/piece.ts";
import { refusal } from "../../src/measure/quantity.ts";
import { shortItem, shortMeaning } from "../support/short.ts";

const language = loadLanguage();
const parser = createParser(language);

/** What any phrase at all must give: a well-formed meaning whose readings are physically possible. */
function sound(phrase: string): void {
  const meaning = Meaning.parse(parser.parse(phrase));
  expect(meaning.text).toBe(phrase);
  for (const item of [...meaning.items, ...meaning.unsure.flatMap(({ candidates }) => candidates)]) {
    if (item.kind === "reading") {
      expect(refusal(item.quantity, item.value, item.unit), shortItem(item)).toBeNull();
      expect(phrase).toContain(item.said.split(" ")[0]);
    }
  }
}

describe("whatever comes in", () => {
  const words = [...new Set(language.island.arcs.flatMap(({ word }) => (word ? [word] : [])))];
  const heard = language.confusions.flatMap((confusion) => confusion.heard);
  const token = fc.oneof(
    fc.constantFrom(...words),
    fc.constantFrom(...heard),
    fc.constantFrom("9.2", "%", ",", "-4", "1,250", "note", "99999"),
  );

  it("token soup gives possible readings and no exception", () => {
    fc.assert(
      fc.property(fc.array(token, { maxLength: 25 }), (tokens) => sound(tokens.join(" "))),
      { numRuns: 1500 },
    );
  });

  it("arbitrary text gives possible readings and no exception", () => {
    fc.assert(fc.property(fc.string({ unit: "binary", maxLength: 120 }), sound), { numRuns: 1500 });
  });

  it("sixty words of one kind, and a thousand, end", () => {
    for (const word of ["nine", "co", "co2", "to", "quarter", "no", "note", "point"]) {
      sound(Array(60).fill(word).join(" "));
      sound(Array(1000).fill(word).join(" "));
    }
  });
});

/** The ways on from each state of a network. */
function waysOf(network: WordNetwork): ReadonlyMap<number, readonly Arc[]> {
  const ways = new Map<number, Arc[]>();
  for (const arc of network.arcs) {
    const out = ways.get(arc.from);
    if (out) out.push(arc);
    else ways.set(arc.from, [arc]);
  }
  return ways;
}

const networks = new Map(
  [{ name: "", network: language.island }, ...language.parts].map(({ name, network }) => [
    name,
    { ways: waysOf(network), ...network },
  ]),
);

/** Walks the island network, and the parts in it, by the choices given: the words said, the tags passed, the cost in nats. */
function walk(choices: readonly number[]): { words: string[]; tags: string[]; cost: number } {
  const words: string[] = [];
  const tags: string[] = [];
  let made = 0;
  let cost = 0;
  const through = (name: string): void => {
    const network = networks.get(name);
    if (!network) throw new Error(`no part ${name}`);
    for (let at = network.start; at !== network.end; ) {
      const on = network.ways.get(at) ?? [];
      const arc = on[(choices[made % choices.length] ?? 0) % on.length];
      made += 1;
      cost -= arc?.logp ?? 0;
      if (!arc) throw new Error("a state without a way on");
      if (arc.word?.startsWith("$")) through(arc.word);
      else if (arc.word !== null) words.push(arc.word === ANY_WORD ? "gasket" : arc.word);
      if (arc.tag !== null) tags.push(arc.tag);
      at = arc.to;
    }
  };
  through("");
  return { words, tags, cost };
}

/** The number that a piece would log, or null. */
function numberIn(piece: Piece): number | null {
  if ("value" in piece) return piece.value;
  return piece.kind === "adjustment" && (piece.way === 1 || piece.way === -1) ? piece.way * piece.turns : null;
}

describe("whatever the grammar can say", () => {
  it("means what it was made from, or is asked: never another number", () => {
    fc.assert(
      fc.property(fc.array(fc.nat(), { minLength: 40, maxLength: 40 }), (choices) => {
        const { words, tags, cost } = walk(choices);
        // Dear: a way to read the words that only physics brings out ("one zero" as 1.0).
        if (cost > MARGIN) return;
        const piece = pieceOf(tags)?.piece;
        const value = piece ? numberIn(piece) : null;
        if (!piece || value === null) return;
        // Where physics leaves one answer that one is taken: "CO2 two one" is 2.1, since it cannot be 21.
        if (piece.kind === "reading" && (piece.flaw || doubt(piece.quantity, piece.value, piece.unit) !== null)) return;
        const meaning = parser.parse(words.join(" "));
        for (const item of meaning.items) {
          const logged =
            item.kind === "reading" || item.kind === "replace"
              ? item.value
              : item.kind === "adjustment"
                ? item.turns
                : value;
          expect(logged, `${words.join(" ")} [${tags.join(" ")}] -> ${shortMeaning(meaning)}`).toBe(value);
        }
      }),
      { numRuns: 3000 },
    );
  });
});
