import { describe, expect, it } from "vitest";
import { standing } from "../../src/answer/turn.ts";
import { shownText } from "../../src/measure/text.ts";
import { talk } from "../support/talk.ts";
import { time } from "../support/visits.ts";

const low = "high fire CO2 eight point four";
const proved = "high fire CO2 nine point two CO forty";

describe("the reply on screen", () => {
  const reply = (...phrases: string[]) => talk(phrases).turns.at(-1)?.reply;
  const cases: [string, string[], string, string][] = [
    ["the first reading large, the next step under it", [proved], "CO2 9.2 %", "Go to low fire."],
    ["formulas, not letters", ["high fire", "CO2 nine point two"], "CO2 9.2 %", "Read CO."],
    ["a question", [proved, "CO2 ninety two"], "CO2 9.2?", "Go to low fire."],
    ["a firing", ["high fire"], "High fire", "Let it settle, then read CO2."],
    [
      "a question about the log: the next step, no old reading",
      [proved, "read back"],
      "Go to low fire",
      "Go to low fire.",
    ],
    ["what is next", [proved, "what is next"], "Go to low fire", "Go to low fire."],
    [
      "nor one of the other firing",
      [proved, "low fire", "what is next"],
      "Let it settle, then read CO2",
      "Let it settle, then read CO2.",
    ],
    [
      "a turn that was mended",
      [low, "@200 one turn clockwise", "@210 I meant out"],
      "High fire screw one full turn counterclockwise",
      "Wait 50 seconds.",
    ],
    ["a reading that was struck", [low, "CO forty", "scratch that"], "Struck: CO 40 ppm", "Read CO."],
    [
      "a note",
      [proved, "note: the trap under the boiler is quite dry"],
      "Note: the trap under the boiler is…",
      "Go to low fire.",
    ],
    ["a short note", [proved, "note: trap is dry"], "Note: trap is dry", "Go to low fire."],
    [
      "a reading of the other firing, mended",
      [proved, "low fire", "no, the CO2 was nine point four"],
      "High fire CO2 9.4 %",
      "Let it settle, then read CO2.",
    ],
    ["finished too early", ["finish visit"], "Finished with open points", "Refit low fire cap."],
  ];
  it.each(cases)("%s", (_name, phrases, headline, detail) => {
    expect(reply(...phrases)).toMatchObject({ headline, detail });
  });

  it("an empty visit is ready", () => {
    const { visit } = talk([]);
    const detail = "First zero the analyser in fresh air, read room CO. Then go to high fire.";
    const ready = { answer: "", headline: "Ready", detail };
    expect(standing(visit, time(0))).toMatchObject(ready);
  });
  it("after a reload it stands as it was, in the same level", () => {
    const { turns, visit, at } = talk([low]);
    expect(standing(visit, time(at))).toEqual(turns[0]?.reply);
    expect(standing(visit, time(at), "short")).toEqual(talk([low], {}, "short").turns[0]?.reply);
  });
  it("after a reload a wait has gone on", () => {
    const { visit } = talk([low, "@200 one turn clockwise"]);
    expect(standing(visit, time(245)).judgement.advice).toEqual({ action: "wait", seconds: 15 });
  });
  it("after a reload what was read too early is to be waited for no longer than it takes", () => {
    const { visit } = talk([low, "@200 one turn clockwise", "@225 CO2 nine point one"]);
    const [warning] = standing(visit, time(245)).judgement.warnings;
    expect(warning?.text).toBe("Too early: wait fifteen seconds more.");
    expect(standing(visit, time(300)).judgement.warnings[0]?.text).toBe("Too early: read again.");
  });
});

describe("what is said letter by letter is shown as it is written", () => {
  it.each([
    ["about one hundred forty three thousand B T U per hour gross", "about 143000 BTU/h gross"],
    ["ten B T U", "10 BTU"],
    ["C O 2 nine, C O twelve", "CO2 9, CO 12"],
  ])("%s", (spoken, shown) => expect(shownText(spoken)).toBe(shown));
});
