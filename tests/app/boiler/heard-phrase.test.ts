import fc from "fast-check";
import { describe, expect, test } from "vitest";
import { contextOf } from "../../../src/answer/context.ts";
import { lastHeard, piecesOf } from "../../../src/app/boiler/heard-phrase.ts";
import { parser, talk } from "../../support/talk.ts";

const heard = (...phrases: string[]) =>
  lastHeard(talk(phrases).visit, (text, before) => parser.understood(text, contextOf(before)));

describe("the phrase that was heard last", () => {
  test("with what was understood, and its entries", () => {
    const last = heard("high fire", "so CO2 nine point two, CO forty");
    expect(last && piecesOf(last)).toEqual([
      { text: "so ", understood: false },
      { text: "CO2 nine point two", understood: true },
      { text: ", ", understood: false },
      { text: "CO forty", understood: true },
    ]);
    expect(last?.entries).toHaveLength(2);
  });

  test("the answer to a question is understood as it was then", () =>
    expect(heard("high fire CO2", "nine point two")?.stretches).toEqual([{ from: 0, to: 14 }]));

  test("is none in an empty visit", () => expect(heard()).toBeNull());
});

test("the pieces of a phrase together are the phrase", () =>
  fc.assert(
    fc.property(fc.string({ maxLength: 30 }), fc.array(fc.tuple(fc.nat(30), fc.nat(30))), (text, pairs) => {
      const stretches = pairs
        .map(([a, b]) => ({ from: Math.min(a, b, text.length), to: Math.min(Math.max(a, b), text.length) }))
        .sort((a, b) => a.from - b.from);
      const pieces = piecesOf({ text, stretches });
      expect(pieces.map((piece) => piece.text).join("")).toBe(text);
      expect(pieces.every((piece) => piece.text !== "")).toBe(true);
    }),
  ));
