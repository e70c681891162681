import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { standing } from "../../src/answer/turn.ts";
import { anyScript } from "../support/arbitrary.ts";
import { sheet } from "../support/sheets.ts";
import { played, talk } from "../support/talk.ts";
import { time } from "../support/visits.ts";

const proved = "high fire CO2 nine point two CO forty";

describe("the tone before an answer", () => {
  it.each([
    ["logged", [proved], "heard"],
    ["a firing", ["high fire"], "heard"],
    ["out of limits is no danger yet", ["high fire CO2 eight point four"], "heard"],
    ["a question", [proved, "CO2 ninety two"], "asking"],
    ["a question asked again", ["CO2 ninety two", "what's next"], "asking"],
    ["a question answered", ["CO2 ninety two", "yes"], "heard"],
    ["logged and asked", ["high fire CO forty CO2 ninety two"], "asking"],
    ["danger", ["high fire CO2 nine point two CO two hundred"], "warning"],
    ["danger and a question", ["high fire CO two hundred CO2 ninety two"], "warning"],
    [
      "a danger that stands, told again",
      ["high fire CO2 nine point two CO two hundred", "what's next"],
      "warning",
    ],
    ["a gas smell", ["I smell gas"], "warning"],
    ["only told", [proved, "what's next"], "none"],
    ["talk", [proved, "my feet hurt"], "none"],
    ["talk while a question is open", ["CO2 ninety two", "my feet hurt"], "none"],
    ["nothing to confirm", ["yes"], "none"],
  ])("%s", (_name, phrases, expected) => {
    expect(talk(phrases).turns.at(-1)?.reply.earcon).toBe(expected);
  });

  it("none for an empty visit", () => expect(standing(talk([]).visit, time(0)).earcon).toBe("none"));

  it("always the warning's where a warning is said, and none where nothing is", () => {
    fc.assert(
      fc.property(anyScript, (script) => {
        for (const { reply } of played(script, { sheet: sheet() })) {
          const { earcon, answer, judgement } = reply;
          expect(earcon === "warning").toBe(answer !== "" && judgement.warnings.length > 0);
          if (answer === "") expect(earcon).toBe("none");
        }
      }),
      { numRuns: 100 },
    );
  });
});
