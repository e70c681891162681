import { beforeAll, describe, expect, it, vi } from "vitest";
import { spokenText } from "../../src/answer/spoken.ts";
import type { Talkativeness } from "../../src/answer/talk.ts";
import { loadEarAssets } from "../../src/device/ears/offline/assets-node.ts";
import type { EarAssets } from "../../src/device/ears/offline/recogniser.ts";
import { hearRecording } from "../../src/device/ears/offline/recording.ts";
import { createSynthesiser, type Synthesise } from "../../src/device/voice/synthesise.ts";
import type { VisitHead } from "../../src/visit/visit.ts";
import { PRESSURE_SHEET } from "../support/sheets.ts";
import { isNumberWord, wordsOf } from "../support/speech/number-words.ts";
import { englishDictionary, sentenceLanguage } from "../support/speech/sentence-language.ts";
import { loadVoice } from "../support/speech/voice-program.ts";
import { answer } from "../support/talk.ts";

/**
 * Every kind of answer, said by the packaged voice and heard by the offline ear, gives back its numbers. The ear was
 * trained on this voice among others (grammars/en/acoustic/synthesise.py): that people understand it is not shown here.
 */
// Beside other tests on a small machine, an answer takes as long as it lasts.
vi.setConfig({ testTimeout: 120_000, hookTimeout: 60_000 });

const dictionary = englishDictionary();
let voice: Synthesise;
let ear: EarAssets;
beforeAll(async () => {
  [voice, ear] = await Promise.all([
    loadVoice().then((program) => createSynthesiser(program)),
    loadEarAssets(),
  ]);
});

/** The words of the best way to hear a sentence, all utterances of it together. */
async function heard(sentence: string): Promise<string[]> {
  const language = sentenceLanguage(sentence, dictionary);
  const utterances = await hearRecording(ear, language, await voice(sentence), () => performance.now());
  return utterances.flatMap(({ hypotheses: [best] }) => best?.words.map(({ word }) => word) ?? []);
}

const numbersIn = (words: readonly string[]): string => words.filter(isNumberWord).join(" ");

const lean = ["high fire CO forty", "CO2 eight point four"];
const proved = "high fire CO2 nine point two CO forty";
const water = ["supply sixty five Celsius return forty five Celsius", "water flow twenty litres a minute"];
const meter = "clocked two cubic feet in forty five seconds";
const pressures = { sheet: PRESSURE_SHEET };
const si = { units: "si" } as const;

type Case = [kind: string, phrases: string[], changes?: Partial<VisitHead>, talk?: Talkativeness];

const CASES: Case[] = [
  ["in range", [proved]],
  ["in range, at length", [proved], {}, "full"],
  ["in range, thirteen", ["high fire CO2 nine CO thirteen"]],
  ["in range, thirty", ["high fire CO2 nine CO thirty"]],
  ["in range, fifteen", ["high fire CO2 nine point one CO fifteen"]],
  ["in range, fifty", ["high fire CO2 nine point one CO fifty"]],
  ["in range, nineteen", ["high fire CO2 eight point eight CO nineteen"]],
  ["in range, ninety", ["high fire CO2 eight point eight CO ninety"]],
  ["in range, one hundred fourteen", ["high fire CO2 nine point six CO one hundred fourteen"]],
  ["in range, one hundred forty", ["high fire CO2 nine point six CO one hundred forty"]],
  ["in range, gas pressure", ["static gas pressure seven point five inches"], pressures],
  ["out of range, low, and the turn", lean],
  ["out of range, low, and the turn, at length", lean, {}, "full"],
  ["out of range, low, and the turn, in short", lean, {}, "short"],
  ["out of range, high, and the turn", ["high fire CO seventeen CO2 ten point one"]],
  ["out of range, gas pressure", ["static gas pressure sixteen inches"], pressures],
  ["a turn and the wait", [...lean, "one turn clockwise"]],
  ["a part of a turn", [proved, "high screw three eighths of a turn out"]],
  ["degrees of a turn", [proved, "high screw fifty degrees clockwise"]],
  ["too early", [...lean, "@300 one turn clockwise", "@325 CO2 nine point one"]],
  ["how long left", [...lean, "@300 one turn clockwise", "@347 how long left"]],
  ["the clock started", ["high fire", "start the clock"]],
  ["a question: was it this", ["CO2 ninety two"]],
  ["a question: the next candidate", ["CO two ten", "no"]],
  ["a question: of what", ["sixty parts per million"]],
  ["a question: which way", ["low screw an eighth"]],
  ["a correction", [proved, "no, sixty"]],
  ["a strike", ["high fire", "CO two hundred eighty", "scratch that"]],
  ["a warning: room", ["room CO seventy five"]],
  ["a warning: flue", ["high fire CO2 nine point two CO two hundred eighteen"]],
  ["a warning: air-free", ["high fire CO2 five CO one hundred seventy"]],
  [
    "a warning: gas pressure drops",
    ["static gas pressure eight inches", "dynamic gas pressure six point three inches"],
    pressures,
  ],
  ["a warning: O2 and CO2", ["high fire CO2 nine O2 eight"]],
  ["a warning: step too large", [...lean, "three turns clockwise"]],
  ["limits of a firing", ["high fire", "what are the limits"]],
  ["limits of low fire", [proved, "low fire", "what are the limits"]],
  ["limits of the gas pressure", ["what are the limits"], pressures],
  ["gas input, Btu", [meter]],
  ["gas input, kW", [meter], si],
  ["heat to the water, kW", water, si],
  ["heat to the water, Btu", water],
  ["temperatures", ["flue temperature one hundred thirteen Celsius"]],
  ["below zero", ["draft minus eighteen pascals"]],
  ["thousands", ["fan speed five thousand two hundred"]],
  ["thousands in teens", ["fan speed sixteen thousand"]],
  ["a small decimal", ["flame current zero point eight microamps"]],
  ["read back", [proved, "low fire CO2 nine CO ten", "read back"]],
  ["read back with turns", [...lean, "one turn clockwise", "quarter turn out", "read back"]],
  ["closing", [proved, "low fire CO2 nine CO ten", "test port plugged"], {}, "full"],
];

describe("said and heard", () => {
  it.each<Case>(CASES)("%s", async (_kind, phrases, changes, talk) => {
    const said = spokenText(answer(phrases, changes, talk) ?? "");
    expect(numbersIn(wordsOf(said))).not.toBe("");
    for (const sentence of said.split(/(?<=[.?!]) /)) {
      const words = await heard(sentence);
      expect({ sentence, numbers: numbersIn(words) }).toEqual({
        sentence,
        numbers: numbersIn(wordsOf(sentence)),
      });
    }
  });
});

describe("a word that the ear mishears swallows no number", () => {
  it.each([
    ["C O two, nine point two two, good.", "two nine point two two"],
    ["C O, ninety five, high.", "ninety five"],
  ])("%s", async (sentence, numbers) => expect(numbersIn(await heard(sentence))).toBe(numbers));
});

describe("the ear is told no number", () => {
  it.each([
    ["C O, nineteen, one nine, good.", "C O, ninety, good."],
    ["Wait thirty five seconds.", "Wait seconds."],
    ["Go to low fire.", "Go to eleven low fire."],
  ])("%s expects the same as %s", (one, other) =>
    expect(sentenceLanguage(one, dictionary)).toEqual(sentenceLanguage(other, dictionary)),
  );
});
