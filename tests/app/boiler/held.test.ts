import { describe, expect, test } from "vitest";
import { Boiler } from "../boiler.ts";

const UNSAVED = "Not saved. Look at the screen.";

/** What is said, and stands on the screen, of phrases that a full disk does not take; after those that it took. */
async function held(phrases: readonly string[], before: readonly string[] = ["high fire"]) {
  const boiler = new Boiler();
  for (const phrase of before) await boiler.at(0, phrase);
  boiler.said.length = 0;
  boiler.full = true;
  for (const phrase of phrases) await boiler.at(0, phrase);
  const codes = boiler.session.held.warnings.value.map(({ code }) => code);
  return { boiler, said: boiler.said, codes };
}

describe("what is held because nothing can be stored warns all the same", () => {
  test.each<readonly [string, string[], RegExp, string[]]>([
    ["a smell of gas", ["I smell gas"], /gas/i, ["gas-smell"]],
    ["a room to leave", ["room CO eighty"], /Leave/i, ["ambient-co-evacuate"]],
    ["flue CO over its limit", ["CO four hundred"], /^C O over the limit/, ["flue-co-over-limit"]],
  ])("%s", async (_, phrases, words, expected) => {
    const { said, codes } = await held(phrases);
    expect(codes).toEqual(expect.arrayContaining(expected));
    expect(said).toEqual([expect.stringMatching(words)]);
    expect(said[0]?.endsWith(` ${UNSAVED}`)).toBe(true);
  });

  test("behind other held phrases, by what they said", async () => {
    const { said, codes } = await held(["low fire", "thanks", "I smell gas"]);
    expect(codes).toContain("gas-smell");
    expect([said.length, said[0]]).toEqual([2, UNSAVED]);
    expect(said[1]).toMatch(/gas/i);
  });

  test("once, and not what stands on the plate already", async () => {
    expect((await held(["I smell gas", "I smell gas"])).said).toHaveLength(1);
    expect((await held(["CO forty"], ["I smell gas"])).said).toEqual([UNSAVED]);
  });
});

test.each([["high fire CO2 nine point two"], ["CO forty"], ["what's next"], ["scratch that"]])(
  "“%s” warns of nothing",
  async (phrase) => {
    const { said, codes } = await held(["high fire CO2 nine point two", phrase]);
    expect([said, codes]).toEqual([[UNSAVED], []]);
  },
);

test("once it is saved, or left unlogged, its warnings stand where all stand, or nowhere", async () => {
  for (const how of ["retry", "drop"] as const) {
    const { boiler } = await held(["I smell gas"]);
    boiler.full = false;
    await boiler.session[how]();
    expect(boiler.session.held.warnings.value).toEqual([]);
    expect(boiler.onPlate.includes("gas-smell")).toBe(how === "retry");
  }
});
