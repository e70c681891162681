import { beforeAll, describe, expect, test, vi } from "vitest";
import { loadStartLanguage } from "../../../../src/cli/language.ts";
import { loadEarAssets } from "../../../../src/device/ears/offline/assets-node.ts";
import type { EarAssets } from "../../../../src/device/ears/offline/recogniser.ts";
import { hearRecording } from "../../../../src/device/ears/offline/recording.ts";
import { chooseStart, startMeaning } from "../../../../src/meaning/start.ts";
import { speak, type Voice } from "../../../support/speech/speak.ts";

/** The real engine with the start page's language, on synthetic voices made from recordings of people. */
vi.setConfig({ testTimeout: 60_000, hookTimeout: 60_000 });

const language = loadStartLanguage();
let assets: EarAssets;
beforeAll(async () => {
  assets = await loadEarAssets();
});

/** What each utterance meant; nothing for what was not taken. */
async function heard(text: string, voice: Voice) {
  const utterances = await hearRecording(assets, language, await speak(text, voice), () => performance.now());
  return utterances.flatMap((utterance) => {
    const phrase = chooseStart(language.piece, utterance);
    return phrase ? [startMeaning(language.piece, phrase.text)] : [];
  });
}

const NONE = { sheet: null, fuel: null, go: false, rest: [] };

describe.each<Voice>(["kal16", "rms", "awb", "slt"])("%s", (voice) => {
  test.each([
    ["sheet two, natural gas, go", { sheet: 2, fuel: "natural-gas", go: true }],
    ["sheet two", { sheet: 2 }],
    ["natural gas", { fuel: "natural-gas" }],
    ["start the visit", { go: true }],
  ])("%s", async (text, expected) => expect(await heard(text, voice)).toEqual([{ ...NONE, ...expected }]));

  test.each([
    "hand me the long screwdriver from the van would you please",
    "we could have something to eat after the afternoon meeting",
    "high fire CO2 nine point two, CO forty",
    "go and look at the stopcock",
  ])("not for it: %s", async (text) => expect(await heard(text, voice)).toEqual([]));
});

test("nothing in silence", async () => {
  const silence = { rate: 16_000, samples: new Float32Array(32_000) };
  const utterances = await hearRecording(assets, language, silence, () => performance.now());
  expect(utterances.flatMap((one) => chooseStart(language.piece, one) ?? [])).toEqual([]);
});
