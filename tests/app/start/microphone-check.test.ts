import { describe, expect, test } from "vitest";
import { contextOf } from "../../../src/answer/context.ts";
import { takeTurn } from "../../../src/answer/turn.ts";
import { CHECK_SENTENCE, MicrophoneCheck } from "../../../src/app/start/microphone-check.ts";
import { onMeter, soundLevel, TOO_LOUD, TOO_QUIET } from "../../../src/app/start/sound-level.ts";
import { choose } from "../../../src/meaning/choose.ts";
import { parser } from "../../support/talk.ts";
import { puppetEar, settled, utterance } from "../puppet-ear.ts";

const NOW = "2026-11-26T09:00:00.000Z";

async function begun() {
  const puppet = puppetEar();
  let ids = 0;
  const check = new MicrophoneCheck({
    speaker: { speak: async () => undefined, cancel: () => undefined },
    mind: () => ({
      choose: (one) => choose(one, (text) => parser.parse(text)),
      understand: (text, before) => parser.understood(text, contextOf(before)),
      take: (visit, phrase, at, talk, asked) => {
        const newId = () => {
          ids += 1;
          return `e${ids}`;
        };
        return takeTurn(parser, visit, phrase, at, newId, talk, asked);
      },
    }),
    now: () => NOW,
    ear: async () => puppet.ear,
  });
  await check.begin();
  return { check, puppet };
}

describe("what was said", () => {
  test("the sentence works, and the microphone is let go", async () => {
    const { check, puppet } = await begun();
    expect(check.result.value).toBe("none");
    puppet.hears(utterance("high fire co2 nine point two"));
    await settled();
    expect(check.result.value).toBe("works");
    expect(check.heard.value).toMatchObject({
      text: "high fire co2 nine point two",
      understood: ["CO2 9.2 %, high fire"],
    });
    expect(puppet.listens()).toBe(false);
  });
  test("the sentence is the one that is asked for", () =>
    expect(parser.parse(CHECK_SENTENCE).items).toMatchObject([
      { kind: "reading", quantity: "co2", value: 9.2, firing: "high" },
    ]));
  test.each([
    ["another number", "high fire co2 nine point four", ["CO2 9.4 %, high fire"]],
    ["another firing", "low fire co2 nine point two", ["CO2 9.2 %, low fire"]],
    ["another thing", "o2 four point five", ["O2 4.5 %"]],
  ])("%s is something else, and it goes on listening", async (_, text, understood) => {
    const { check, puppet } = await begun();
    puppet.hears(utterance(text));
    await settled();
    expect(check.result.value).toBe("other");
    expect(check.heard.value?.understood).toEqual(understood);
    expect(puppet.listens()).toBe(true);
    puppet.hears(utterance("high fire co2 nine point two"));
    await settled();
    expect(check.result.value).toBe("works");
  });
  test("speech without such words is told", async () => {
    const { check, puppet } = await begun();
    puppet.hears(utterance("hand me the key", 0.1, { rejected: true }));
    expect(check.result.value).toBe("no-words");
    await check.begin();
    expect(check.result.value).toBe("none");
  });
});

describe("how loud", () => {
  const level = (loudness: number, voice: number | null) => ({ kind: "level", loudness, voice }) as const;
  test.each<[number, number | null, string | null]>([
    [0.5, 0.9, "good"],
    [0.5, 0.5, "good"],
    [0.5, 0.49, null],
    [0.5, null, null],
    [TOO_QUIET, 0.9, "good"],
    [TOO_QUIET - 0.001, 0.9, "quiet"],
    [TOO_LOUD, 0.9, "loud"],
    [TOO_LOUD - 0.001, 0.9, "good"],
  ])("%d of full scale, voice %d: %s", async (loudness, voice, expected) => {
    const { check, puppet } = await begun();
    puppet.emit(level(loudness, voice));
    expect(check.level.value).toBe(expected);
  });
  test("stands for two seconds after the voice", async () => {
    const { check, puppet } = await begun();
    puppet.emit(level(0.3, 0.9));
    for (let at = 0; at < 9; at += 1) puppet.emit(level(0.001 * at, 0));
    expect(check.level.value).toBe("good");
    puppet.emit(level(0.1, 0));
    expect(check.level.value).toBeNull();
  });
  test("ten seconds without a voice are told", async () => {
    const { check, puppet } = await begun();
    for (let at = 0; at < 49; at += 1) puppet.emit(level(0.001 * at, 0));
    expect(check.silent.value).toBe(false);
    puppet.emit(level(0.2, 0));
    expect(check.silent.value).toBe(true);
    puppet.emit(level(0.3, 0.9));
    expect(check.silent.value).toBe(false);
  });
});

test.each([
  [0, "quiet"],
  [0.0199, "quiet"],
  [0.02, "good"],
  [0.9899, "good"],
  [0.99, "loud"],
  [1, "loud"],
])("a peak of %d is %s", (peak, word) => expect(soundLevel(peak)).toBe(word));

// 20 dB are a tenth (IEC 60027-3, from memory): the meter goes from -60 dB to full scale.
test.each([
  [0, 0],
  [0.0001, 0],
  [0.001, 0],
  [0.01, 1 / 3],
  [0.1, 2 / 3],
  [1, 1],
  [2, 1],
])("a loudness of %d stands at %d of the meter", (loudness, at) =>
  expect(onMeter(loudness)).toBeCloseTo(at, 9),
);
