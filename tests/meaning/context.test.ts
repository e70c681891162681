import { describe, expect, it } from "vitest";
import { loadLanguage } from "../../src/cli/language.ts";
import { type Context, type Known, NO_CONTEXT } from "../../src/meaning/context.ts";
import { createParser } from "../../src/meaning/parser.ts";
import { QUANTITIES } from "../../src/measure/quantity.ts";
import { shortMeaning } from "../support/short.ts";

const parser = createParser(loadLanguage());
const means = (phrase: string, context: Partial<Context>) =>
  shortMeaning(parser.parse(phrase, { ...NO_CONTEXT, ...context }));

const known = (quantity: Known["quantity"], value: number, unit: Known["unit"]): Known => ({
  quantity,
  value,
  unit,
  firing: "high",
});
// CO2max of natural gas and O2 of dry air: tests/combustion checks them against published values.
const gas = { co2Max: 11.9, o2InAir: 20.95 };
const atHigh = { firing: "high", gas } as const;

describe("what is known ranks the rivals", () => {
  it.each([
    ["nothing known: asked", "CO two ten", {}, "?(co2 10 %, co 210 [ppm])"],
    [
      "CO was 200: likelier, still asked",
      "CO two ten",
      { ...atHigh, known: [known("co", 200, "[ppm]")] },
      "?(co 210 [ppm], co2 10 %)",
    ],
    [
      "CO was 200, CO2 5",
      "CO two ten",
      { ...atHigh, known: [known("co", 200, "[ppm]"), known("co2", 5, "%")] },
      "co 210 [ppm]",
    ],
    [
      "only CO2 is known: CO may be what it likes",
      "CO two ten",
      { ...atHigh, known: [known("co2", 9.8, "%")] },
      "?(co2 10 %, co 210 [ppm])",
    ],
    [
      "CO was 40, CO2 9.8",
      "CO two ten",
      { ...atHigh, known: [known("co", 40, "[ppm]"), known("co2", 9.8, "%")] },
      "co2 10 %",
    ],
    [
      "O2 was 3.4: CO2 of 10 fits",
      "CO two ten",
      { ...atHigh, known: [known("o2", 3.4, "%"), known("co", 30, "[ppm]")] },
      "co2 10 %",
    ],
    [
      "O2 said in the same breath",
      "O2 three point four, CO two ten",
      { ...atHigh, known: [known("co", 30, "[ppm]")] },
      "o2 3.4 %; co2 10 %",
    ],
    [
      "of the other firing it says nothing",
      "CO two ten",
      { firing: "low", known: [known("co", 200, "[ppm]")] },
      "?(co2 10 %, co 210 [ppm])",
    ],
    [
      "it never makes a value possible",
      "CO2 ninety two",
      { ...atHigh, known: [known("co2", 9.1, "%")] },
      "?(co2 9.2 %)",
    ],
    [
      "at high fire, a last word of low is not known to be a firing",
      "CO2 8.6 low",
      atHigh,
      "?(co2 8.6 % low, co2 8.6 %)",
    ],
    ["at low fire it is", "CO2 8.6 low", { firing: "low" }, "co2 8.6 % low"],
  ] as const)("%s", (_, phrase, context, expected) => expect(means(phrase, context)).toBe(expected));
});

const howMuch = (quantity: Known["quantity"]): Partial<Context> => ({
  question: { asks: "value", quantity, firing: null, condition: null },
});
const ofWhat = (value: number, unit: Known["unit"] = null): Partial<Context> => ({
  question: { asks: "quantity", value, unit },
});
const way: Partial<Context> = { question: { asks: "way", adjuster: "low", turns: 0.25 } };
const screw: Partial<Context> = { question: { asks: "screw", turns: -0.5 } };

describe("what is missing may be said alone", () => {
  it.each([
    ["nine point two", howMuch("co2"), "co2 9.2 %"],
    ["nine two", howMuch("co2"), "co2 9.2 %"],
    ["it's nine point two", howMuch("co2"), "co2 9.2 %"],
    ["one seventy-five", howMuch("co"), "co 175 [ppm]"],
    ["ninety two", howMuch("co2"), "?(co2 9.2 %)"],
    ["seven and a half inches", howMuch("gas-pressure-inlet"), "gas-pressure-inlet 7.5 [in_i'H2O]"],
    ["CO2", ofWhat(9.2), "co2 9.2 %"],
    ["that was the CO", ofWhat(40), "co 40 [ppm]"],
    ["flue temperature", ofWhat(54, "Cel"), "flue-temperature 54 Cel"],
    ["CO", ofWhat(9.2), "?(co2 9.2 %)"],
    ["clockwise", way, "turn low 0.25"],
    ["in", way, "turn low 0.25"],
    ["counterclockwise", way, "turn low -0.25"],
    ["it was out", way, "turn low -0.25"],
    ["high", screw, "turn high -0.5"],
    ["the low fire screw", screw, "turn low -0.5"],
  ] as const)("%s", (phrase, context, expected) => expect(means(phrase, context)).toBe(expected));
});

describe("and nothing else is taken for an answer", () => {
  it.each([
    ["nine point two", {}, "?"],
    ["clockwise", {}, "-"],
    ["in", {}, "-"],
    ["in", howMuch("co2"), "-"],
    ["high", way, "-"],
    ["come in", way, "-"],
    ["CO forty", howMuch("co2"), "co 40 [ppm]"],
    ["give me two minutes", howMuch("co2"), "-"],
    ["half past nine", howMuch("co2"), "-"],
    ["nine", way, "?"],
  ] as const)("%s", (phrase, context, expected) => expect(means(phrase, context)).toBe(expected));
});

describe("the turn before", () => {
  const turn = { adjuster: "low", turns: -0.1 } as const;
  it.each([
    ["another tenth", { turn }, "turn low -0.1"],
    ["no, an eighth", { turn }, "strike adjustment; turn low -0.125"],
    ["make that a quarter in", { turn }, "strike adjustment; turn low 0.25"],
    ["no, three quarters", {}, "replace 0.75 -"],
    ["no, nine point four", { turn }, "replace 9.4 -"],
  ] as const)("%s", (phrase, context, expected) => expect(means(phrase, context)).toBe(expected));
});

describe("the reading before", () => {
  it.each([
    ["no, low fire", { read: "high" }, "mend low fire"],
    ["sorry, low fire", { read: "high" }, "mend low fire"],
    ["no, low fire, CO forty", { read: "high" }, "co 40 [ppm] low"],
    ["no, low fire", { read: "low" }, "firing low"],
    ["low fire", { read: "high" }, "firing low"],
    ["no, in", { read: "high" }, "mend clockwise"],
  ] as const)("%s", (phrase, context, expected) => expect(means(phrase, context)).toBe(expected));
});

describe("what is asked to be confirmed may be said by name", () => {
  const open = ["low-fire-cap", "test-port", "panel", "leak-check"] as const;
  it.each([
    ["cap", { open }, "check low-fire-cap"],
    ["low fire cap", { open }, "check low-fire-cap"],
    ["the port", { open }, "check test-port"],
    ["bung", { open }, "check test-port"],
    ["panel, leak check", { open }, "check panel; check leak-check"],
    ["cap, port, panel on", { open }, "check low-fire-cap; check test-port; check panel"],
    ["port done", { open }, "check test-port"],
    ["leak check", { open }, "check leak-check"],
    // Asked, talked of, not open, or nothing asked.
    ["cap?", { open }, "-"],
    ["where's the cap", { open }, "-"],
    ["hand me the cap", { open }, "-"],
    ["port of Hamburg", { open }, "-"],
    ["no panel", { open }, "-"],
    ["no, cap", { open }, "-"],
    ["leak", { open }, "-"],
    ["screw", { open }, "-"],
    ["manometer", { open }, "-"],
    ["scratch that panel", { open }, "-"],
    ["cap", {}, "-"],
    ["low fire cap", {}, "-"],
    ["leak check", {}, "-"],
  ] as const)("%s", (phrase, context, expected) => expect(means(phrase, context)).toBe(expected));
});

describe("every quantity", () => {
  it.each(QUANTITIES.map(({ id, name }) => [name, id] as const))(
    "is found by its own name: %s",
    (_, quantity) => {
      const [asked] = parser.parse(
        `${quantity === "gas-meter-time" ? "CO2" : QUANTITIES.find(({ id }) => id === quantity)?.name}`,
      ).unsure;
      expect(asked?.question).toMatchObject({ asks: "value" });
    },
  );
});

describe("more CO2 than the gas can give is asked about", () => {
  it.each([
    ["as much as it can", "high fire CO2 11.9", { gas }, "co2 11.9 % high"],
    ["more", "high fire CO2 12", { gas }, "?(co2 12 % high)"],
    ["the rest is logged", "high fire CO2 12.8, CO forty", { gas }, "co 40 [ppm] high; ?(co2 12.8 % high)"],
    ["a mend to it", "no, twelve point eight", { gas, known: [known("co2", 9.9, "%")] }, "?(replace 12.8 -)"],
    [
      "a mend of CO",
      "no, two hundred",
      { gas, known: [known("co2", 9.9, "%"), known("co", 40, "[ppm]")] },
      "replace 200 -",
    ],
    ["O2 is not CO2", "O2 12.8", { gas }, "o2 12.8 %"],
    ["propane can give it", "high fire CO2 12.8", { gas: { ...gas, co2Max: 13.8 } }, "co2 12.8 % high"],
    ["the gas is not known", "high fire CO2 12.8", {}, "co2 12.8 % high"],
  ] as [string, string, Partial<Context>, string][])("%s: %s", (_name, phrase, context, expected) =>
    expect(means(phrase, context)).toBe(expected),
  );
});

describe("what a gas pressure drops to is of the one read right before", () => {
  const pressure = { ...known("gas-pressure-inlet", 7, "[in_i'H2O]"), firing: null };
  const drops = "it drops to six when firing";
  it.each([
    ["right after it", drops, [pressure], "gas-pressure-inlet 6 - dynamic"],
    ["after another reading", drops, [pressure, known("co2", 9, "%")], "-"],
    ["after none", drops, [], "-"],
    ["of something else", `the water pressure ${drops}`, [pressure], "-"],
    ["in a plan", `if ${drops}`, [pressure], "-"],
  ] as [string, string, Known[], string][])("%s", (_name, phrase, read, expected) =>
    expect(means(phrase, { known: read })).toBe(expected),
  );
});
