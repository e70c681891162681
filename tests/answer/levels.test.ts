import { describe, expect, it } from "vitest";
import { Talkativeness, talkAfter } from "../../src/answer/talk.ts";
import { PRESSURE_SHEET } from "../support/sheets.ts";
import { answer, played, withoutExpectation } from "../support/talk.ts";
import { co2, command, high, type Said } from "../support/visits.ts";

const begun = "high fire CO forty";
const lean = "CO2 eight point four";
const proved = "high fire CO2 nine point two CO forty";

describe("three levels", () => {
  const cases: [string, string[], short: string, normal: string, full: string][] = [
    [
      "all is well",
      [proved],
      "Nine point two, forty, good. Low fire next.",
      "C O 2 nine point two, C O forty, good. Low fire next.",
      "High fire C O 2 nine point two, good, eight point seven to nine point seven. High fire C O forty, good, at most one hundred seventy five. Go to low fire: high fire is in limits.",
    ],
    [
      "out of limits",
      [begun, lean],
      "Eight point four, low. High screw one full turn clockwise.",
      "C O 2 eight point four, low, eight point seven to nine point seven. Turn the high fire screw one full turn clockwise, expect …, wait sixty seconds.",
      "High fire C O 2 eight point four, low, eight point seven to nine point seven. Turn the high fire screw one full turn clockwise to raise C O 2, expect …, then wait sixty seconds for it to settle.",
    ],
    [
      "a turn",
      [begun, lean, "one turn clockwise"],
      "One full turn clockwise. Wait sixty seconds.",
      "High fire screw one full turn clockwise. Wait sixty seconds.",
      "High fire screw one full turn clockwise. Wait sixty seconds: readings settle after a touch of the screw.",
    ],
    [
      "a danger",
      ["high fire CO2 nine point two CO two hundred"],
      "C O over the limit at high fire. Get help. Nine point two, good. Two hundred, high.",
      "C O over the limit at high fire. Get help. C O 2 nine point two, good. C O two hundred, high, at most one hundred seventy five.",
      "C O over the limit at high fire. Get help. High fire C O 2 nine point two, good, eight point seven to nine point seven. High fire C O two hundred, high, at most one hundred seventy five.",
    ],
    [
      "which way is never without what to expect",
      [begun, lean, "which way"],
      "C O 2 eight point four, low, eight point seven to nine point seven. Turn the high fire screw one full turn clockwise, expect …, wait sixty seconds.",
      "C O 2 eight point four, low, eight point seven to nine point seven. Turn the high fire screw one full turn clockwise, expect …, wait sixty seconds.",
      "C O 2 eight point four, low, eight point seven to nine point seven. Turn the high fire screw one full turn clockwise to raise C O 2, expect …, then wait sixty seconds for it to settle.",
    ],
    [
      "before the test",
      ["mark as found"],
      "Marked as found. Zero the analyser in fresh air.",
      "Marked as found. Zero the analyser in fresh air.",
      "Marked as found. First zero the analyser in fresh air, read room C O. Then go to high fire.",
    ],
    [
      "a warning that is the reading",
      ["room CO seventy five"],
      "Room C O seventy five. Leave now, ventilate, call for help.",
      "Room C O seventy five. Leave now, ventilate, call for help.",
      "Room C O seventy five. Leave now, ventilate, call for help.",
    ],
    [
      "closing",
      [proved, "low fire CO2 nine CO ten", "test port plugged"],
      "Test port plugged. Low fire cap next.",
      "Test port plugged. Refit low fire cap.",
      "Test port plugged. Refit low fire cap: two things are open.",
    ],
  ];
  it.each(cases)("%s", (_name, phrases, ...expected) =>
    expect(Talkativeness.options.map((level) => withoutExpectation(answer(phrases, {}, level)))).toEqual(
      expected,
    ),
  );

  it("what was assumed is said in every level", () => {
    const said = Talkativeness.options.map((level) =>
      answer(["gas pressure seven"], { sheet: PRESSURE_SHEET }, level),
    );
    for (const text of said) expect(text).toMatch(/[Ss]tatic .*seven inches of water, good/);
  });
});

describe("a normal answer keeps to ten words when all is well, dropping least what is needed most", () => {
  const cases: [string, string[], string][] = [
    ["the name of one", ["high fire", "CO2 nine point two"], "C O 2 nine point two, good. Read C O."],
    ["the place first", ["high fire CO2 nine CO twelve"], "C O 2 nine, C O twelve, good. Go to low fire."],
    ["then words of the next step", [proved], "C O 2 nine point two, C O forty, good. Low fire next."],
    [
      "then the names of two, before the next step",
      ["high fire CO2 nine point two CO one hundred ten"],
      "Nine point two, one hundred ten, good. Low fire next.",
    ],
    [
      "the names of many last",
      ["high fire O2 four point six CO2 nine point two CO one hundred twenty"],
      "Four point six. Nine point two, good. One hundred twenty, good. Low fire next.",
    ],
  ];
  it.each(cases)("%s", (_name, phrases, expected) => expect(answer(phrases)).toBe(expected));
});

describe("less talk, more talk", () => {
  const steps: ["less-talk" | "more-talk" | "none" | "rest", Talkativeness, Talkativeness][] = [
    ["less-talk", "full", "normal"],
    ["less-talk", "normal", "short"],
    ["less-talk", "short", "short"],
    ["more-talk", "short", "normal"],
    ["more-talk", "normal", "full"],
    ["more-talk", "full", "full"],
    ["none", "short", "short"],
    ["rest", "full", "full"],
  ];
  it.each(steps)("%s in %s gives %s", (effect, level, next) => expect(talkAfter(level, effect)).toBe(next));

  const said: [Said[], Talkativeness, string, string][] = [
    [[[0, command("less-talk")]], "normal", "Short answers.", "less-talk"],
    [[[0, command("less-talk")]], "short", "Answers are already short.", "less-talk"],
    [[[0, command("more-talk")]], "normal", "Full answers.", "more-talk"],
    [
      [[0, command("more-talk"), command("stop-listening")]],
      "short",
      "Normal answers. Not listening.",
      "rest",
    ],
    [[[0, high]], "short", "High fire. Let it settle, then read C O 2.", "none"],
    [[[0, co2(9.2, "high")]], "short", "Nine point two, good. Read C O.", "none"],
  ];
  it.each(said)("%j in %s", (script, level, expected, effect) => {
    expect(played(script, {}, level).at(-1)?.reply).toMatchObject({ answer: expected, effect });
  });
});

describe("an emergency, and taking note of it: the same in every level", () => {
  const smell = "Gas smell. No flame, no switches. Gas off, ventilate, leave, call the gas emergency line.";
  const alarm =
    "C O alarm. Burner off, ventilate, leave now, call for help. Come back only when the room is safe.";
  const cases: [string, Said[], string][] = [
    ["a smell of gas", [[0, command("gas-smell")]], `${smell} Gas smell logged.`],
    ["an alarm", [[0, command("co-alarm")]], `${alarm} Alarm logged.`],
    [
      "noted, and it stands",
      [
        [0, command("gas-smell")],
        [9, command("acknowledge")],
      ],
      `${smell} Noted.`,
    ],
    [
      "what's next",
      [
        [0, command("gas-smell")],
        [9, command("next-step")],
      ],
      smell,
    ],
  ];
  it.each(cases)("%s", (_name, script, expected) =>
    expect(Talkativeness.options.map((level) => played(script, {}, level).at(-1)?.reply.answer)).toEqual([
      expected,
      expected,
      expected,
    ]),
  );
});
