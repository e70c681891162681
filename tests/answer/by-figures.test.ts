import { describe, expect, test } from "vitest";
import { talk } from "../support/talk.ts";

describe("figure by figure", () => {
  test.each<[string[], string, string]>([
    [["CO2", "figure by figure"], "CO2, figure by figure.", "figure-by-figure"],
    [["low fire CO2 ninety two", "figure by figure"], "Low fire CO2, figure by figure.", "figure-by-figure"],
    [
      ["static gas pressure", "digit by digit"],
      "Static inlet gas pressure, figure by figure.",
      "figure-by-figure",
    ],
    [["figure by figure"], "Name the reading first, then say: figure by figure.", "figure-by-figure"],
    [
      ["a quarter turn", "figure by figure"],
      "Name the reading first, then say: figure by figure.",
      "figure-by-figure",
    ],
    [["CO2, figure by figure"], "CO2, figure by figure. C O 2: how much?", "figure-by-figure"],
    [["CO2", "figure by figure", "stop listening"], "Not listening.", "rest"],
  ])("%j", (phrases, answer, effect) =>
    expect(talk(phrases).turns.at(-1)?.reply).toMatchObject({ answer, effect }),
  );
});
