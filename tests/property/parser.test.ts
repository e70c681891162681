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
import { implausible } from "../../src/meaning/plausible.ts";
import { refusal } from "../../src/measure/quantity.ts";
import { shortItem } from "../support/short.ts";

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
  return piece.kind === "adjustment" && (piece.way === 1 || piece.way === -1)
    ? piece.way * piece.turns
    : null;
}

/** The numbers that a phrase would log: of readings, replacements and turns, in spoken order. */
function loggedNumbers(phrase: string): number[] {
  return parser.parse(phrase).items.flatMap((item) => {
    switch (item.kind) {
      case "reading":
      case "replace":
        return [item.value];
      case "adjustment":
        return [item.turns];
      default:
        return [];
    }
  });
}

interface Generated {
  readonly phrase: string;
  readonly tags: string;
  readonly value: number;
  /** What it may be logged as: where that is a value that is hardly ever read, the same digits with a point. */
  readonly taken: readonly number[];
}

/**
 * A phrase made by a walk, with the number that it says. Null where it says none that can be, and for dear ways to read
 * words, which only physics brings out ("one zero" as 1.0).
 */
function generated(choices: readonly number[]): Generated | null {
  const { words, tags, cost } = walk(choices);
  const piece = pieceOf(tags)?.piece;
  const value = piece ? numberIn(piece) : null;
  if (!piece || value === null || cost > MARGIN) return null;
  // A turn of a screw is no zero, and what goes on from something stands after that only.
  if (piece.kind === "adjustment" && (value === 0 || piece.continues)) return null;
  if (piece.kind === "reading" && piece.follows) return null;
  if (piece.kind === "reading" && (piece.flaw || doubt(piece.quantity, piece.value, piece.unit) !== null))
    return null;
  // "Inlet seven zero" is 7.0 rather than 70: physics brings that out, too.
  const taken = implausible(piece) > 0 ? [value, value / 10, value / 100] : [value];
  return { phrase: words.join(" "), tags: tags.join(" "), value, taken };
}

const choices = fc.array(fc.nat(), { minLength: 40, maxLength: 40 });

describe("whatever the grammar can say", () => {
  it("means what it was made from, or is asked: never another number", () => {
    fc.assert(
      fc.property(choices, (made) => {
        const one = generated(made);
        if (!one) return;
        for (const logged of loggedNumbers(one.phrase))
          expect(one.taken, `${one.phrase} [${one.tags}]`).toContain(logged);
      }),
      { numRuns: 5000 },
    );
  });

  it("and in a row with others, too", () => {
    fc.assert(
      fc.property(fc.array(choices, { minLength: 2, maxLength: 4 }), (rows) => {
        // A correction would mend its neighbour.
        const made = rows.map(generated).filter((one) => one !== null && !one.tags.startsWith("replace"));
        const phrase = made.map((one) => one?.phrase).join(", ");
        const said = made.flatMap((one) => one?.taken ?? []);
        for (const logged of loggedNumbers(phrase)) expect(said, phrase).toContain(logged);
      }),
      // The same rows each time: some of what the grammar can say in a row nobody could tell apart.
      { numRuns: 2000, seed: 7 },
    );
  });

  it("is logged and not asked in nine of ten cases", () => {
    const made = fc
      .sample(choices, { numRuns: 4000, seed: 7 })
      .map(generated)
      .filter((one) => one !== null);
    const logged = made.filter(({ phrase, value }) => loggedNumbers(phrase).join() === String(value));
    expect(made.length).toBeGreaterThan(300);
    expect(logged.length / made.length).toBeGreaterThan(0.9);
  });
});
