import fc from "fast-check";
import { describe, expect, test } from "vitest";
import { confirmedPhrases } from "../../src/visit/confirmed.ts";
import { foldVisit } from "../../src/visit/fold.ts";
import type { Visit } from "../../src/visit/visit.ts";
import { dialogue } from "../support/dialogue.ts";
import { time } from "../support/visits.ts";

/** Phrases in a row, heard offline; one that ends in "?" is heard so that its numbers are asked about. */
function heard(...phrases: readonly string[]): Visit {
  const said = phrases.map((phrase) => phrase.replace("?", ""));
  const { visit } = dialogue(said, {}, (place) => (phrases[place]?.endsWith("?") ? 0.7 : 0.95));
  return { ...visit, entries: visit.entries.map((entry) => ({ ...entry, engine: "offline" })) };
}

/** Found right at the end, by name. */
function foundRight(visit: Visit): Visit {
  const [last] = visit.entries.slice(-1);
  if (!last) throw new Error("Expected an entry.");
  const body = { kind: "reviewed", by: "Ada" } as const;
  const review = { ...last, id: "review", seq: last.seq + 1, at: time(9000), phrase: "", said: "", body };
  return { ...visit, entries: [...visit.entries, { ...review, engine: "typed" }] };
}

const textsOf = (visit: Visit): string[] => confirmedPhrases(visit).map(({ text }) => text);

describe("confirmed", () => {
  test.each<[string, string[], string[]]>([
    ["gone on after", ["co2 9.2", "co 40"], ["co2 9.2"]],
    ["several things in one phrase", ["high fire co2 9.2 co 40", "o2 4.5"], ["high fire co2 9.2 co 40"]],
    ["asked about, yes", ["co2 9.2?", "yes"], ["co2 9.2"]],
    ["asked about, yes, gone on", ["co2 9.2?", "yes", "co 40"], ["co2 9.2"]],
    ["a turn", ["low screw a quarter clockwise", "co2 9.2"], ["low screw a quarter clockwise"]],
    ["a mark", ["mark as found", "co2 9.2"], ["mark as found"]],
    ["read again the same", ["co2 9.2", "co2 9.2", "o2 4.5"], ["co2 9.2", "co2 9.2"]],
    [
      "read anew after a turn",
      ["high fire co2 9.2", "high screw a quarter clockwise", "high fire co2 8.9", "co 40"],
      ["high fire co2 9.2", "high screw a quarter clockwise", "high fire co2 8.9"],
    ],
    [
      "the same in the other firing",
      ["high fire co2 9.2", "low fire co2 8.9", "co 40"],
      ["high fire co2 9.2", "low fire co2 8.9"],
    ],
  ])("%s", (_, phrases, expected) => expect(textsOf(heard(...phrases))).toEqual(expected));

  test("found right: the last phrase too", () =>
    expect(textsOf(foundRight(heard("co2 9.2", "co 40")))).toEqual(["co2 9.2", "co 40"]));

  test("the place is that of the first entry, where the sound is kept", () =>
    expect(confirmedPhrases(heard("co2 9.2", "co 40 o2 4.5", "mark as found"))).toEqual([
      { seq: 0, text: "co2 9.2" },
      { seq: 1, text: "co 40 o2 4.5" },
    ]));
});

describe("not confirmed", () => {
  test.each<[string, string[], string[]]>([
    ["the last thing said", ["co2 9.2"], []],
    ["mended at once", ["co2 9.2", "no, nine point four", "co 40"], []],
    ["struck at once", ["co2 9.2", "scratch that", "co 40"], []],
    ["mended later", ["co2 9.2", "co 40", "no, the co2 was 9.4", "o2 4.5"], ["co 40"]],
    ["one of two struck", ["co2 9.2 co 40", "strike that co", "o2 4.5"], []],
    ["asked about, no answer", ["co2 9.2?", "o2 4.5", "co 40"], ["o2 4.5"]],
    ["asked about, no", ["co2 9.2?", "no"], []],
    ["asked about, another number", ["co2 9.2?", "no, nine point four", "co 40"], []],
    ["yes, and mended after", ["co2 9.2?", "yes", "no, nine point four", "co 40"], []],
    ["said again with another number", ["co 14", "co 40", "o2 4.5"], ["co 40"]],
    ["talk", ["hand me the long screwdriver", "co2 9.2"], []],
  ])("%s", (_, phrases, expected) => expect(textsOf(heard(...phrases))).toEqual(expected));

  test("said again with another number, also where the visit was found right", () =>
    expect(textsOf(foundRight(heard("co 14", "co 40")))).toEqual(["co 40"]));

  test.each(["typed", "platform"] as const)("by another way in: %s", (engine) => {
    const visit = heard("co2 9.2", "co 40");
    const entries = visit.entries.map((entry) => ({ ...entry, engine }));
    expect(textsOf({ ...visit, entries })).toEqual([]);
  });

  test("heard too poorly for going on to be consent, but not if it was found right", () => {
    const visit = heard("mark as found", "co2 9.2");
    const entries = visit.entries.map((entry) => ({ ...entry, confidence: 0.7 }));
    expect(textsOf({ ...visit, entries })).toEqual([]);
    expect(textsOf(foundRight({ ...visit, entries }))).toEqual(["mark as found", "co2 9.2"]);
  });

  test("nothing was said", () => expect(textsOf(heard())).toEqual([]));
});

test("of a phrase with anything struck, mended or refused nothing is ever confirmed", () => {
  const phrase = fc.constantFrom(
    ..."co2 9.2;co 40;co 40?;high fire co2 9.4?;yes;no;scratch that;no, nine point five;strike that co;o2 4.5".split(
      ";",
    ),
  );
  fc.assert(
    fc.property(fc.array(phrase, { maxLength: 8 }), (phrases) => {
      const visit = heard(...phrases);
      const { items, unsure } = foldVisit(visit);
      const confirmed = confirmedPhrases(visit);
      const places = new Set(confirmed.map(({ seq }) => seq));
      for (const { seq, struckBy, history } of items) {
        const first = visit.entries.findIndex(({ at }) => at === visit.entries[seq]?.at);
        if (places.has(first)) expect([struckBy, history]).toEqual([null, []]);
      }
      for (const { seq, settled } of unsure) {
        const first = visit.entries.findIndex(({ at }) => at === visit.entries[seq]?.at);
        if (places.has(first)) expect(settled?.how).toBe("accepted");
      }
    }),
    { numRuns: 60 },
  );
});
