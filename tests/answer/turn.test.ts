import { describe, expect, it } from "vitest";
import { takeTurn } from "../../src/answer/turn.ts";
import type { Context } from "../../src/meaning/context.ts";
import type { Parser } from "../../src/meaning/parser.ts";
import { parser, talk } from "../support/talk.ts";
import { head, time, typed } from "../support/visits.ts";

const proved = "high fire CO2 nine point two CO forty";

/** What the parser is told before each phrase. */
function contexts(...phrases: string[]): (Context | undefined)[] {
  const seen: (Context | undefined)[] = [];
  const spy: Parser = {
    parse(text, context, confidence) {
      seen.push(context);
      return parser.parse(text, context, confidence);
    },
  };
  talk(phrases, {}, undefined, spy);
  return seen;
}

describe("a turn", () => {
  it("changes nothing it was given, and its visit is what the entries make", () => {
    const { visit } = talk([proved]);
    const before = JSON.stringify(visit);
    const turn = takeTurn(parser, visit, typed("low fire CO2 nine"), time(500), () => "x");
    expect(JSON.stringify(visit)).toBe(before);
    expect(turn.visit.entries).toEqual([...visit.entries, ...turn.entries]);
  });

  it("tells the parser the firing and the open question", () => {
    const value = { asks: "value", quantity: "co2", firing: null, condition: null, others: [] };
    expect(contexts("low fire", "CO2 ninety two", "nine point three")).toMatchObject([
      { firing: null, question: null },
      { firing: "low", question: null },
      { firing: "low", question: value },
    ]);
  });

  it("tells the parser what is known, what the gas is, and the turn just made", () => {
    expect(contexts("high fire CO2 nine point two", "low screw a tenth in", "CO forty").at(-1)).toMatchObject(
      {
        known: [{ quantity: "co2", value: 9.2, unit: "%", firing: "high" }],
        // 100 times the oxygen of dry air; CO2max of natural gas is checked in tests/combustion.
        gas: { o2InAir: 20.95 },
        turn: { adjuster: "low", turns: 0.1 },
      },
    );
  });
});

describe("what the ear did not hear clearly", () => {
  /** An ear as sure of the first phrase as given; what is typed afterwards is certain. */
  const hear = (confidence: number, ...phrases: string[]) => {
    let first = true;
    const ears: Parser = {
      parse(text, context) {
        const sure = first ? confidence : 1;
        first = false;
        return parser.parse(text, context, sure);
      },
    };
    return talk(phrases, head(), undefined, ears).turns.map(({ reply }) => reply.answer);
  };

  it.each([
    [0.84, "C O forty?"],
    [0.85, "C O 2 nine point two, C O forty, good. Low fire next."],
  ])("at %d", (confidence, expected) => expect(hear(confidence, proved)[0]).toBe(expected));

  it("asks for two numbers one after the other", () => {
    expect(hear(0.7, proved, "yes", "yes")).toEqual([
      "C O forty?",
      "C O forty, good. C O 2 nine point two?",
      "C O 2 nine point two, good. Go to low fire.",
    ]);
  });

  it("takes the number instead of yes, and goes on asking", () => {
    expect(hear(0.7, proved, "fifty", "no, nine point four").slice(1)).toEqual([
      "C O fifty, good. C O 2 nine point two?",
      "C O 2 nine point four, good. Go to low fire.",
    ]);
  });
});
