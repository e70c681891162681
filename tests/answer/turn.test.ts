import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { standing, takeTurn } from "../../src/answer/turn.ts";
import { loadLanguage } from "../../src/cli/language.ts";
import type { Context } from "../../src/meaning/context.ts";
import { createParser, type Parser } from "../../src/meaning/parser.ts";
import { Entry } from "../../src/visit/entry.ts";
import { foldVisit } from "../../src/visit/fold.ts";
import type { Visit, VisitHead } from "../../src/visit/visit.ts";
import { anyScript } from "../support/arbitrary.ts";
import { PRESSURE_SHEET, sheet } from "../support/sheets.ts";
import { head, meaningOf, time, typed } from "../support/visits.ts";

const parser = createParser(loadLanguage());

/** Says phrases one after the other, a hundred seconds apart unless "@seconds " stands before. */
function talk(phrases: readonly string[], changes: Partial<VisitHead> = {}, ears: Parser = parser) {
  let visit: Visit = { format: "burnerside-visit/1", head: head(changes), entries: [] };
  let ids = 0;
  let at = 0;
  const turns = phrases.map((phrase) => {
    const [, seconds, text = phrase] = /^@(\d+) (.*)$/.exec(phrase) ?? [];
    at = seconds === undefined ? at + 100 : Number(seconds);
    const turn = takeTurn(ears, visit, typed(text), time(at), () => `e${ids++}`);
    visit = turn.visit;
    return turn;
  });
  return { turns, visit, at };
}

/** The answer to the last phrase. */
const answer = (phrases: readonly string[], changes: Partial<VisitHead> = {}) =>
  talk(phrases, changes).turns.at(-1)?.reply.answer;

const low = "high fire CO2 eight point four";
const proved = "high fire CO2 nine point two CO forty";

describe("spoken answers", () => {
  const cases: [string, string[], string][] = [
    [
      "all is well: the numbers, and what comes next",
      [proved],
      "Nine point two, forty, good. Go to low fire.",
    ],
    [
      "low fire was turned: high fire again",
      [proved, "low fire", "a tenth of a turn clockwise", "CO2 nine CO ten"],
      "Nine, ten, good. Recheck high fire.",
    ],
    ["room for the name", ["high fire", "CO2 nine point two"], "C O 2 nine point two, good. Read C O."],
    [
      "too low: which screw, how far, which way, how long",
      [low],
      "C O 2 eight point four, low. Turn the high fire screw one full turn clockwise, then wait sixty seconds.",
    ],
    [
      "a verdict each, in spoken order",
      ["high fire CO forty CO2 eight point four"],
      "C O forty, good. C O 2 eight point four, low. Turn the high fire screw one full turn clockwise, then wait sixty seconds.",
    ],
    [
      "too high",
      ["high fire CO2 ten point one"],
      "C O 2 ten point one, high. Turn the high fire screw one full turn counterclockwise, then wait sixty seconds.",
    ],
    ["a turn", [low, "one turn clockwise"], "High fire screw one full turn clockwise. Wait sixty seconds."],
    [
      "too early: the warning first",
      [low, "@200 one turn clockwise", "@225 CO2 nine point one"],
      "Too early by thirty five seconds. C O 2 nine point one, not settled. Wait thirty five seconds.",
    ],
    [
      "danger first",
      ["high fire CO2 nine point two CO two hundred"],
      "C O over the limit at high fire. Get help. C O 2 nine point two, good. C O two hundred, high.",
    ],
    [
      "a warning that is the reading says it once",
      [proved, "room CO seventy five"],
      "Room C O seventy five. Leave now and call for help.",
    ],
    [
      "scratch that",
      ["high fire", "CO2 nine point two", "scratch that"],
      "Struck high fire C O 2 nine point two.",
    ],
    ["nothing to scratch", ["scratch that"], "Nothing to strike."],
    [
      "no, nine point four",
      [proved, "CO2 nine point two", "no, nine point four"],
      "Now nine point four, good. Go to low fire.",
    ],
    ["nothing to mend", ["make that fifty"], "No reading to mend."],
    ["what could not be measured: a question", ["CO2 ninety two"], "C O 2 nine point two?"],
    ["and yes", ["high fire", "CO2 ninety two", "yes"], "C O 2 nine point two, good. Read C O."],
    ["and no", ["high fire", "CO2 ninety two", "no"], "Dropped."],
    ["yes to nothing", ["yes"], "There is no question open."],
    ["a firing", ["high fire"], "High fire. Read C O 2."],
    ["a check", ["test port plugged"], "Test port plugged. Go to high fire."],
    ["a note", ["note gasket renewed"], "Note: gasket renewed."],
    [
      "read back",
      [proved, "low fire CO2 nine", "high fire", "read back"],
      "High fire. C O 2 nine point two. C O forty.",
    ],
    ["read back nothing", ["read back"], "No readings yet."],
    [
      "what's next",
      [low, "what's next"],
      "Turn the high fire screw one full turn clockwise, then wait sixty seconds.",
    ],
    ["what's next at the start", ["what's next"], "Go to high fire."],
    [
      "repeat",
      [low, "repeat"],
      "C O 2 eight point four, low. Turn the high fire screw one full turn clockwise, then wait sixty seconds.",
    ],
    [
      "repeat after a question about time",
      [low, "how long left", "repeat"],
      "C O 2 eight point four, low. Turn the high fire screw one full turn clockwise, then wait sixty seconds.",
    ],
    ["nothing to repeat", ["repeat"], "Nothing was said yet."],
    ["time left", [low, "@200 one turn clockwise", "@225 how long left"], "Thirty five seconds left."],
    ["one second left", [low, "@200 one turn clockwise", "@259 how long left"], "One second left."],
    ["time over", [low, "@200 one turn clockwise", "@260 how long left"], "Time is up."],
    ["no clock", ["how long left"], "No clock is running."],
    [
      "finishing with things open",
      ["finish visit"],
      "Not done: refit low fire cap, switch test mode off, plug the test port. Visit finished.",
    ],
    ["stop listening", ["stop listening"], "Not listening."],
    ["not for the log: silence", ["hand me the four millimetre key"], ""],
    ["firing not known", ["CO2 nine point two"], "Nine point two, firing not known. Go to high fire."],
  ];
  it.each(cases)("%s", (_name, phrases, expected) => expect(answer(phrases)).toBe(expected));
});

describe("what the ear did not hear clearly", () => {
  /** An ear as sure of every phrase as given; what is typed afterwards is certain. */
  const hear = (confidence: number, ...phrases: string[]) => {
    const first: Parser = { parse: (text, context) => parser.parse(text, context, confidence) };
    let visit: Visit = { format: "burnerside-visit/1", head: head(), entries: [] };
    let ids = 0;
    return phrases.map((phrase, i) => {
      const ears = i === 0 ? first : parser;
      const turn = takeTurn(ears, visit, typed(phrase), time(100 * i), () => `e${ids++}`);
      visit = turn.visit;
      return turn.reply.answer;
    });
  };

  it.each([
    [0.79, "C O forty?"],
    [0.8, "Nine point two, forty, good. Go to low fire."],
  ])("at %d", (confidence, expected) => expect(hear(confidence, proved)[0]).toBe(expected));

  it("asks for two numbers one after the other", () => {
    expect(hear(0.7, proved, "yes", "yes")).toEqual([
      "C O forty?",
      "C O forty, good. C O 2 nine point two?",
      "Nine point two, good. Go to low fire.",
    ]);
  });

  it("takes the number instead of yes, and goes on asking", () => {
    expect(hear(0.7, proved, "fifty", "no, nine point four").slice(1)).toEqual([
      "C O fifty, good. C O 2 nine point two?",
      "Nine point four, good. Go to low fire.",
    ]);
  });
});

describe("without limits nothing is judged, and the answer says so", () => {
  const cases: [string, Partial<VisitHead>, string][] = [
    ["no sheet", { sheet: null }, "Nine point two, forty. No sheet, not judged."],
    [
      "a sheet for another gas",
      { fuel: "propane", sheet: PRESSURE_SHEET },
      "C O 2 nine point two, C O forty. This sheet has no limits for this gas.",
    ],
  ];
  it.each(cases)("%s", (_name, changes, expected) => expect(answer([proved], changes)).toBe(expected));
});

describe("what was assumed is said with the number", () => {
  const pressures = { sheet: PRESSURE_SHEET };
  const cases: [string, string[], Partial<VisitHead>, RegExp][] = [
    [
      "inches in a US visit",
      ["static gas pressure seven point two"],
      { ...pressures, units: "us" },
      /inches of water/,
    ],
    ["millibar in an SI visit", ["static gas pressure eighteen"], { ...pressures, units: "si" }, /millibar/],
    ["static before the burner runs", ["inlet gas pressure seven inches"], pressures, /[Ss]tatic/],
  ];
  it.each(cases)("%s", (_name, phrases, changes, expected) =>
    expect(answer(phrases, changes)).toMatch(expected),
  );
});

describe("the reply on screen", () => {
  const reply = (...phrases: string[]) => talk(phrases).turns.at(-1)?.reply;
  const cases: [string, string[], string, string][] = [
    ["the first reading large, the next step under it", [proved], "CO2 9.2 %", "Go to low fire."],
    ["formulas, not letters", ["high fire", "CO2 nine point two"], "CO2 9.2 %", "Read CO."],
    ["a question", ["CO2 ninety two"], "CO2 nine point two?", "Go to high fire."],
    ["a firing", ["high fire"], "High fire", "Read CO2."],
  ];
  it.each(cases)("%s", (_name, phrases, headline, detail) => {
    expect(reply(...phrases)).toMatchObject({ headline, detail });
  });
  it("stop listening takes effect, nothing else does", () => {
    expect([reply("stop listening")?.effect, reply(proved)?.effect]).toEqual(["stop-listening", "none"]);
  });
  it("an empty visit is ready", () => {
    const visit = talk([]).visit;
    expect(standing(visit, time(0))).toMatchObject({
      answer: "",
      headline: "Ready",
      detail: "Go to high fire.",
    });
  });
  it("after a reload it stands as it was", () => {
    const { turns, visit, at } = talk([low]);
    expect(standing(visit, time(at))).toEqual(turns[0]?.reply);
  });
  it("after a reload a wait has gone on", () => {
    const { visit } = talk([low, "@200 one turn clockwise"]);
    expect(standing(visit, time(245)).judgement.advice).toEqual({ action: "wait", seconds: 15 });
  });
});

describe("a turn", () => {
  it("changes nothing it was given, and its visit is what the entries make", () => {
    const { visit } = talk([proved]);
    const before = JSON.stringify(visit);
    const turn = takeTurn(parser, visit, typed("low fire CO2 nine"), time(500), () => "x");
    expect(JSON.stringify(visit)).toBe(before);
    expect(turn.visit.entries).toEqual([...visit.entries, ...turn.entries]);
  });
  it("tells the parser the firing and the open question", () => {
    const seen: (Context | undefined)[] = [];
    const spy: Parser = {
      parse(text, context, confidence) {
        seen.push(context);
        return parser.parse(text, context, confidence);
      },
    };
    talk(["low fire", "CO2 ninety two", "nine point three"], {}, spy);
    const value = { asks: "value", quantity: "co2", firing: null, condition: null, others: [] };
    expect(seen).toMatchObject([
      { firing: null, question: null },
      { firing: "low", question: null },
      { firing: "low", question: value },
    ]);
  });

  it("tells the parser what is known, what the gas is, and the turn just made", () => {
    let seen: Context | undefined;
    const spy: Parser = {
      parse(text, context, confidence) {
        seen = context;
        return parser.parse(text, context, confidence);
      },
    };
    talk(["high fire CO2 nine point two", "low screw a tenth in", "CO forty"], {}, spy);
    expect(seen).toMatchObject({
      known: [{ quantity: "co2", value: 9.2, unit: "%", firing: "high" }],
      // 100 times the oxygen of dry air; CO2max of natural gas is checked in tests/combustion.
      gas: { o2InAir: 20.95 },
      turn: { adjuster: "low", turns: 0.1 },
    });
  });
});

describe("always, whatever is meant", () => {
  /** An ear for random meanings: the phrase is the number of the utterance. */
  const played = (script: Parameters<typeof meaningOf>[], chosen: VisitHead["sheet"]) => {
    const stub: Parser = { parse: (text) => meaningOf(...(script[Number(text)] ?? [])) };
    return talk(
      script.map((_, i) => String(i)),
      { sheet: chosen },
      stub,
    );
  };
  const run = fc.tuple(anyScript, fc.constantFrom(null, sheet()));

  it("entries are sound, whatever was logged is answered, warnings come first, ten words do when all is well", () => {
    fc.assert(
      fc.property(run, ([script, chosen]) => {
        const { turns, visit } = played(
          script.map(([, ...things]) => things),
          chosen,
        );
        for (const { entries, meaning, reply } of turns) {
          for (const entry of entries) expect(() => Entry.parse(entry)).not.toThrow();
          if (entries.length > 0) expect(reply.answer).not.toBe("");
          const { verdicts, warnings, advice } = reply.judgement;
          // A command, or a question that is still open, has its own answer beside it.
          const asks = reply.answer.includes("?") || meaning.items.some(({ kind }) => kind === "command");
          const quiet =
            !asks && warnings.length === 0 && advice.action !== "turn" && advice.action !== "stop";
          if (verdicts.length === 1 && verdicts[0]?.verdict === "pass" && entries.length === 1 && quiet) {
            expect(reply.answer.split(/\s+/).length).toBeLessThanOrEqual(10);
          }
          if (reply.answer === "") continue;
          expect(reply.answer.startsWith(warnings.map(({ text }) => text).join(" "))).toBe(true);
        }
        expect(foldVisit(visit).nextSeq).toBe(visit.entries.length);
      }),
    );
  });
});
