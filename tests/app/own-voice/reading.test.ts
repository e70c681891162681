import { readFileSync } from "node:fs";
import fc from "fast-check";
import { describe, expect, test } from "vitest";
import { asksOf, ReadingPlan, secondsOf } from "../../../src/app/own-voice/plan.ts";
import { beginReading, type ReadingEvent, takeEvent } from "../../../src/app/own-voice/reading.ts";
import { endedWords, troubleWords } from "../../../src/app/own-voice/wording.ts";
import { KEY_WORDS, type KeyWord } from "../../../src/device/spotter/words.ts";
import { chance } from "../../support/valve/chance.ts";
import { type Answer, type Room, readIn, SHORT_PLAN, SPEAKS, scoresOf, windowAt } from "./room.ts";

const PLAN = ReadingPlan.parse(JSON.parse(readFileSync("grammars/en/reading.json", "utf8")));

describe("what is read", () => {
  const drawn = chance(7);
  const asks = asksOf(PLAN, () => drawn.from(0, 1));
  const words = asks.flatMap((ask) => (ask.kind === "word" ? [ask] : []));

  test("every key word in four takes, one of them held back, and about three minutes", () => {
    expect([...PLAN.words].sort()).toEqual([...KEY_WORDS]);
    for (const word of KEY_WORDS) {
      const takes = words.filter((ask) => ask.word === word);
      expect(takes.map(({ first }) => first)).toEqual([true, false, false, false]);
      expect(takes.filter(({ heldBack }) => heldBack)).toHaveLength(1);
    }
    expect(secondsOf(asks, PLAN.noiseSeconds)).toBeGreaterThan(150);
    expect(secondsOf(asks, PLAN.noiseSeconds)).toBeLessThan(240);
  });

  test("the rounds are in other orders", () => {
    const rounds = [0, 1, 2, 3].map((round) =>
      words
        .slice(20 * round, 20 * round + 20)
        .map(({ word }) => word)
        .join(),
    );
    expect(new Set(rounds).size).toBe(4);
  });

  test("no sentence has a key word in it, or what sounds like one", () => {
    const alike = [
      ...KEY_WORDS,
      "to",
      "too",
      "for",
      "ate",
      "won",
      "know",
      "knows",
      "hi",
      "oh",
      "marks",
      "points",
    ];
    const said = PLAN.sentences.flatMap((text) => text.toLowerCase().match(/[a-z']+/g) ?? []);
    expect(said.filter((word) => alike.includes(word))).toEqual([]);
  });
});

/** The first word that is asked is ask 1; it answers so at its first try. */
const atFirst = (answer: Answer): Room => ({
  answers: (ask, tries) => (ask === 1 && tries === 0 ? answer : undefined),
});
const says = (from: number, to: number, level = -30): Answer => ({ sounds: [{ from, to, level }] });

describe("a reading in a quiet room", () => {
  test("all takes are there at its end, each label as often as asked", () => {
    const { reading, troubles, told } = readIn({});
    expect(reading.phase.kind).toBe("read");
    expect(troubles).toEqual([]);
    const count = (label: string) => reading.takes.filter((take) => take.label === label).length;
    expect(SHORT_PLAN.words.map(count)).toEqual([2, 2, 2]);
    expect(count("_background_noise_")).toBeGreaterThanOrEqual(3);
    expect(count("_unknown_")).toBeGreaterThanOrEqual(4);
    // Each word is said once by the app; later rounds have only the tone.
    expect([...told].sort()).toEqual(
      ["Say nothing for a few seconds.", "Nine.", "Two.", "Stop.", "", "", "", "Read this aloud."].sort(),
    );
  });

  test("the whole of it takes about three minutes", () => {
    const { reading, seconds, troubles } = readIn({ plan: PLAN });
    expect([reading.phase.kind, troubles]).toEqual(["read", []]);
    expect(reading.takes.filter(({ label }) => !label.startsWith("_"))).toHaveLength(80);
    expect(seconds).toBeGreaterThan(100);
    expect(seconds).toBeLessThan(240);
  });

  test("a take is the window in which the word is whole and nearest to the middle", () => {
    const { reading } = readIn({});
    for (const { label, spectrogram } of reading.takes.filter((take) => !take.label.startsWith("_"))) {
      const loud = Array.from({ length: 43 }, (_, column) => column).filter(
        (column) => (spectrogram[column * 232 + 100] ?? -120) > -60,
      );
      const middle = ((loud[0] ?? 0) + (loud.at(-1) ?? 0)) / 2;
      expect(Math.abs(middle - 21), label).toBeLessThan(10);
      // Half a second.
      expect(loud.length, label).toBeGreaterThanOrEqual(21);
    }
  });
});

describe("what goes wrong with a take is said, and it is taken again", () => {
  test.each<[string, Room, string[]]>([
    ["silence", atFirst({ sounds: [] }), ["silence"]],
    ["a click", atFirst(says(400, 450)), ["silence"]],
    ["too loud", atFirst(says(350, 850, -12)), ["loud"]],
    ["just not too loud", atFirst(says(350, 850, -18)), []],
    ["too soft", atFirst(says(350, 850, -57)), ["soft"]],
    ["soft, and clear", atFirst(says(350, 850, -52)), []],
    [
      "too soft against the room",
      { noise: -45, answers: (ask, tries) => (ask === 1 && tries === 0 ? says(350, 850, -36) : undefined) },
      ["soft"],
    ],
    ["too early", atFirst(says(0, 450)), ["early"]],
    [
      "talking on",
      atFirst({ sounds: [350, 800, 1250].flatMap((from) => says(from, from + 320).sounds) }),
      ["more"],
    ],
    ["a burner that starts", atFirst(says(350, 2300)), ["noise"]],
    ["two words", atFirst({ sounds: [...SPEAKS, { from: 1100, to: 1500, level: -31 }] }), ["more"]],
    ["the wrong word", atFirst({ sounds: SPEAKS, heard: "five" }), ["wrong"]],
    [
      "a word that closes the mouth",
      atFirst({ sounds: [says(350, 600), says(750, 820)].flatMap(({ sounds }) => sounds) }),
      [],
    ],
    ["late", atFirst(says(2500, 3000)), []],
    [
      "somebody speaks while the room is heard",
      { answers: (ask, tries) => (ask === 0 && tries === 0 ? says(500, 1500) : undefined) },
      ["spoke"],
    ],
    [
      "a sentence broken off",
      { answers: (ask, tries) => (ask === 7 && tries === 0 ? says(300, 900) : undefined) },
      ["short"],
    ],
    [
      "a sentence that is not read",
      { answers: (ask, tries) => (ask === 7 && tries === 0 ? { sounds: [] } : undefined) },
      ["silence"],
    ],
  ])("%s", (_, room, expected) => {
    const { reading, troubles } = readIn(room);
    expect(troubles).toEqual(expected);
    expect(reading.phase.kind).toBe("read");
  });

  test("every trouble is one sentence with what is wanted", () => {
    for (const kind of ["silence", "loud", "soft", "early", "more", "noise"] as const)
      expect(troubleWords({ kind }, { kind: "word", word: "nine", first: true, heldBack: false })).toMatch(
        /^[^.]+“nine”[^.]*\.$/,
      );
  });
});

describe("an accent locks nobody out", () => {
  const otherwise = (heard: KeyWord): Room => ({
    answers: (ask) => (ask > 0 && ask < 7 ? { sounds: SPEAKS, heard } : undefined),
  });

  test("a word that is heard as another is asked for once more, then taken, and not asked about in later rounds", () => {
    const { reading, troubles } = readIn(otherwise("five"));
    expect(reading.phase.kind).toBe("read");
    expect(troubles).toEqual(["wrong", "wrong", "wrong"]);
    expect(reading.takes.filter(({ label }) => label === "nine")).toHaveLength(2);
  });

  test("a slip of the tongue is no way of speaking: the next slip is asked about, too", () => {
    const { troubles } = readIn({
      answers: (ask, tries) =>
        ask > 0 && ask < 7 && tries === 0 ? { sounds: SPEAKS, heard: "five" } : undefined,
    });
    expect(troubles).toHaveLength(6);
  });

  test("where the base model is not sure the word is taken", () => {
    const { troubles } = readIn({
      answers: (ask) => (ask > 0 && ask < 7 ? { sounds: SPEAKS, heard: null } : undefined),
    });
    expect(troubles).toEqual([]);
  });
});

describe("what ends it, and then nothing is left of it", () => {
  const never: Answer = { sounds: [] };
  test.each<[string, Room, string]>([
    [
      "“stop”, twice",
      {
        plan: { ...SHORT_PLAN, words: ["nine"] },
        answers: (ask) => (ask === 1 ? { sounds: SPEAKS, heard: "stop" } : undefined),
      },
      "Stopped, as you said. Nothing was kept.",
    ],
    [
      "a burner beside it",
      { noise: -30 },
      "It is too noisy here to learn a voice: go where it is quieter and start again. Nothing was kept.",
    ],
    [
      "nobody",
      { answers: (ask) => (ask === 1 ? never : undefined) },
      "Nothing was heard for a minute. Nothing was kept.",
    ],
    [
      "too soft again and again",
      { answers: (ask) => (ask === 1 ? says(350, 850, -57) : undefined) },
      "It was too soft again and again: go where it is quieter, or nearer, and start again. Nothing was kept.",
    ],
    [
      "too loud again and again",
      { answers: (ask) => (ask === 2 ? says(350, 850, -10) : undefined) },
      "It was too loud again and again: hold the device further away and start again. Nothing was kept.",
    ],
  ])("%s", (_, room, words) => {
    const { reading, told } = readIn(room);
    if (reading.phase.kind !== "ended") throw new Error(`Expected an end, found ${reading.phase.kind}.`);
    expect(endedWords(reading.phase.ending)).toBe(words);
    expect(told.at(-1)).toBe(words);
    expect(reading.takes).toEqual([]);
  });

  test("“stop” once where another word was asked for only asks again", () => {
    const { reading, told } = readIn(atFirst({ sounds: SPEAKS, heard: "stop" }));
    // Where "stop" itself is the first that is asked it is right.
    expect(reading.phase.kind).toBe("read");
    expect(told.filter((text) => text.startsWith("Once more.")).length).toBeLessThan(2);
  });

  test.each<[string, ReadingEvent]>([
    ["a lost microphone", { kind: "microphone", message: "The microphone was lost." }],
    ["a tap on Cancel", { kind: "cancel" }],
  ])("%s, whenever it comes", (_, event) => {
    const drawn = chance(3);
    const { reading } = beginReading(SHORT_PLAN, () => drawn.from(0, 1), 0);
    const listening = takeEvent(reading, { kind: "told", at: 10 }).reading;
    for (const at of [reading, listening]) {
      const after = takeEvent(at, event).reading;
      expect(after).toMatchObject({ phase: { kind: "ended" }, takes: [] });
      expect(takeEvent(after, { kind: "told", at: 20 })).toEqual({ reading: after, tell: null });
    }
  });
});

test("whatever comes in whatever order, it is read only with all takes, and what has ended holds none", () => {
  const moment = fc.record({
    kind: fc.constantFrom("window", "told", "tick", "microphone", "cancel", "window", "told", "window"),
    wait: fc.integer({ min: 1, max: 2000 }),
    voice: fc.option(fc.integer({ min: -70, max: -8 })),
    heard: fc.option(fc.constantFrom(...KEY_WORDS)),
  });
  const plan: ReadingPlan = { noiseSeconds: 1, words: ["nine"], takes: 2, sentences: [] };
  fc.assert(
    fc.property(fc.array(moment, { maxLength: 40 }), fc.integer(), (moments, seed) => {
      const drawn = chance(seed);
      let { reading } = beginReading(plan, () => drawn.from(0, 1), 0);
      let at = 0;
      for (const { kind, wait, voice, heard } of moments) {
        at += wait;
        const sounds = voice === null ? [] : [{ from: at - 700, to: at - 300, level: voice }];
        const event: ReadingEvent =
          kind === "window"
            ? { kind, at, spectrogram: windowAt(at, sounds, -70), scores: scoresOf(heard) }
            : kind === "microphone"
              ? { kind, message: "Lost." }
              : kind === "cancel"
                ? { kind }
                : { kind, at };
        reading = takeEvent(reading, event).reading;
        const words = reading.takes.filter(({ label }) => label === "nine");
        if (reading.phase.kind === "read")
          expect(words.map(({ heldBack }) => heldBack).sort()).toEqual([false, true]);
        if (reading.phase.kind === "ended") expect(reading.takes).toEqual([]);
        expect(words.length).toBeLessThanOrEqual(2);
      }
    }),
    { numRuns: 200 },
  );
});
