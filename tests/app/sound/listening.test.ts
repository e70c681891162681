import { describe, expect, test } from "vitest";
import { Listening } from "../../../src/app/sound/listening.ts";
import { loadLanguage } from "../../../src/cli/language.ts";
import type { Ear, EarEvent } from "../../../src/device/ears/ear.ts";
import { choose } from "../../../src/meaning/choose.ts";
import type { Utterance } from "../../../src/meaning/heard.ts";
import { createParser } from "../../../src/meaning/parser.ts";
import { steers } from "../../../src/meaning/steers.ts";

const SOUND = new Float32Array([0, 0.5, -0.5]);

const utterance = (text: string, change: Partial<Utterance> = {}): Utterance => ({
  engine: "offline",
  hypotheses: [
    {
      confidence: 0.8,
      words: text
        .split(" ")
        .filter(Boolean)
        .map((word) => ({ word, confidence: 1, start: 0, end: 1 })),
    },
  ],
  rejected: false,
  audioSeconds: 1,
  computeSeconds: 0.1,
  sound: SOUND,
  ...change,
});

/** An ear that says what the test makes it say, and remembers what was done to it. */
function puppet() {
  const done: string[] = [];
  let emit: (event: EarEvent) => void = () => {};
  const ear: Ear = {
    engine: "offline",
    async listen(on) {
      emit = on;
      on({ kind: "listening" });
    },
    voiceSounds: (sounding) => done.push(sounding ? "sounds" : "silent"),
    async stop() {
      done.push("stopped");
    },
  };
  return { ear, done, emit: (event: EarEvent) => emit(event) };
}

/** A voice whose texts end when the test says so. */
function voice() {
  const ends: (() => void)[] = [];
  return { ends, speak: () => new Promise<void>((resolve) => ends.push(resolve)), cancel: () => {} };
}

const settle = () => new Promise<void>((resolve) => setImmediate(resolve));

const parser = createParser(loadLanguage());
const UNDERSTANDING = {
  choose: (heard: Utterance) => choose(heard, (text) => parser.parse(text)),
  steers: (text: string) => steers(parser.parse(text)),
};
const LOUDSPEAKER = () => false;
const HEADSET = () => true;
const hears = (heard: Utterance, over = false): EarEvent => ({ kind: "utterance", utterance: heard, over });

test("the ear knows of the app's voice until the last of two overlapping answers is over", async () => {
  const { ear, done } = puppet();
  const speaker = voice();
  const listening = new Listening(speaker, UNDERSTANDING, () => {}, LOUDSPEAKER);
  await listening.start(async () => ear);
  done.length = 0;
  const all = [listening.say("one"), listening.say("two")];
  expect(listening.speaking.value).toBe(true);
  speaker.ends[0]?.();
  await all[0];
  expect(done.at(-1)).toBe("sounds");
  speaker.ends[1]?.();
  await all[1];
  expect(done.at(-1)).toBe("silent");
  expect(listening.speaking.value).toBe(false);
});

test("the ear knows of kept sound that plays, and of its end when playing fails", async () => {
  const { ear, done } = puppet();
  const listening = new Listening(voice(), UNDERSTANDING, () => {}, LOUDSPEAKER);
  await listening.start(async () => ear);
  done.length = 0;
  await expect(listening.sounds("", () => Promise.reject(new Error("no sound")))).rejects.toThrow("no sound");
  expect(done).toEqual(["sounds", "silent"]);
  expect(listening.speaking.value).toBe(false);
});

test("an ear that starts while the app speaks is told so", async () => {
  const { ear, done } = puppet();
  const listening = new Listening(voice(), UNDERSTANDING, () => {}, LOUDSPEAKER);
  void listening.say("one");
  await listening.start(async () => ear);
  expect(done.at(-1)).toBe("sounds");
});

test("speech for the log comes out as phrases, the rest is counted", async () => {
  const heard: string[] = [];
  const { ear, emit } = puppet();
  const listening = new Listening(voice(), UNDERSTANDING, (phrase) => heard.push(phrase.text), LOUDSPEAKER);
  await listening.start(async () => ear);
  emit(hears(utterance("c o forty")));
  emit(hears(utterance("hand me the key", { rejected: true })));
  expect(heard).toEqual(["c o forty"]);
  expect(listening.ignored.value).toBe(1);
});

test("a stop while the ear still loads wins", async () => {
  const { ear } = puppet();
  const listening = new Listening(voice(), UNDERSTANDING, () => {}, LOUDSPEAKER);
  let loaded: (ear: Ear) => void = () => {};
  const starting = listening.start(
    () =>
      new Promise<Ear>((resolve) => {
        loaded = resolve;
      }),
  );
  await settle();
  await listening.stop();
  loaded(ear);
  await starting;
  expect(listening.state.value).toEqual({ kind: "off" });
});

test("what a stopped ear still tells is not taken", async () => {
  const heard: string[] = [];
  const { ear, emit } = puppet();
  const listening = new Listening(voice(), UNDERSTANDING, (phrase) => heard.push(phrase.text), LOUDSPEAKER);
  await listening.start(async () => ear);
  await listening.stop();
  emit(hears(utterance("c o forty")));
  emit({ kind: "listening" });
  expect(heard).toEqual([]);
  expect(listening.state.value).toEqual({ kind: "off" });
});

test("a problem and a failed load are one sentence in the state", async () => {
  const { ear, emit } = puppet();
  const listening = new Listening(voice(), UNDERSTANDING, () => {}, LOUDSPEAKER);
  await listening.start(async () => ear);
  emit({ kind: "problem", message: "The microphone was refused." });
  expect(listening.state.value).toEqual({ kind: "problem", message: "The microphone was refused." });
  await listening.start(() => Promise.reject(new Error("no model")));
  expect(listening.state.value).toEqual({
    kind: "problem",
    message: "The recogniser could not be loaded: no model",
  });
  // As Chromium and Firefox word it where the network is off.
  for (const offline of [
    "Failed to fetch dynamically imported module: http://localhost/a.js",
    "error loading dynamically imported module: http://localhost/a.js",
  ]) {
    await listening.start(() => Promise.reject(new TypeError(offline)));
    expect(listening.state.value).toEqual({
      kind: "problem",
      message:
        "The recogniser is not on this device yet: fetch it in the settings while there is a network, or type.",
    });
  }
});

describe("what is heard over the app's own voice", () => {
  const sure = (text: string, confidence = 0.97): Utterance => {
    const [first] = utterance(text).hypotheses;
    return utterance(text, { hypotheses: first ? [{ ...first, confidence }] : [] });
  };
  test.each([
    ["a clear word that steers interrupts", "CO2 9.2 percent.", sure("stop listening"), ["stop listening"]],
    ["taking back interrupts", "CO2 9.2 percent.", sure("scratch that"), ["scratch that"]],
    ["a danger interrupts", "CO2 9.2 percent.", sure("i smell gas"), ["i smell gas"]],
    ["an alarm, too", "Wait three minutes.", sure("co alarm"), ["co alarm"]],
    ["not the app's own warning of one", "If you smell gas, leave.", sure("i smell gas"), []],
    ["nor a danger with a reading behind it", "Wait.", sure("i smell gas co2 nine point two"), []],
    ["a reading never does", "Wait three minutes.", sure("co2 nine point two"), []],
    ["nor a turn", "Wait three minutes.", sure("half a turn clockwise"), []],
    ["nor yes, which would answer what was not asked yet", "CO2 9.2?", sure("yes"), []],
    ["nor an unclear word", "CO2 9.2 percent.", sure("stop listening", 0.85), []],
    ["nor the app's own words", "To go on say read back.", sure("read back"), []],
    ["nor what was not for the log", "CO2 9.2 percent.", utterance("stop", { rejected: true }), []],
  ])("%s", async (_, saying, heardOver, expected) => {
    const heard: string[] = [];
    const { ear, emit } = puppet();
    const speaker = voice();
    const hushes: number[] = [];
    const listening = new Listening(
      { ...speaker, cancel: () => hushes.push(1) },
      UNDERSTANDING,
      (phrase) => heard.push(phrase.text),
      LOUDSPEAKER,
    );
    await listening.start(async () => ear);
    void listening.say(saying);
    emit(hears(heardOver, true));
    expect(heard).toEqual(expected);
    expect(hushes).toHaveLength(expected.length);
  });
  test("the app's own words do not interrupt it after they are over either", async () => {
    const heard: string[] = [];
    const { ear, emit } = puppet();
    const speaker = voice();
    const listening = new Listening(speaker, UNDERSTANDING, (phrase) => heard.push(phrase.text), LOUDSPEAKER);
    await listening.start(async () => ear);
    const saying = listening.say("To go on say read back.");
    speaker.ends[0]?.();
    await saying;
    emit(hears(sure("read back"), true));
    expect(heard).toEqual([]);
  });
});

describe("what is heard while the app's voice is in a headset", () => {
  test.each([
    [
      "a reading is taken, after the voice fell silent",
      "co2 nine point two",
      {},
      ["hush", "co2 nine point two"],
    ],
    ["a turn too", "half a turn clockwise", {}, ["hush", "half a turn clockwise"]],
    ["and the app's own words, which only the person can have said", "wait", {}, ["hush", "wait"]],
    ["what is not for the log leaves the voice alone", "hand me the key", { rejected: true }, []],
  ])("%s", async (_, text, change, expected) => {
    const done: string[] = [];
    const { ear, emit, done: told } = puppet();
    const listening = new Listening(
      { ...voice(), cancel: () => done.push("hush") },
      UNDERSTANDING,
      (phrase) => done.push(phrase.text),
      HEADSET,
    );
    await listening.start(async () => ear);
    void listening.say("Wait three minutes.");
    expect(listening.speaking.value).toBe(true);
    // The ear must not drop or mark what it hears.
    expect(told).not.toContain("sounds");
    emit(hears(utterance(text, change)));
    expect(done).toEqual(expected);
  });

  test("when nothing sounds there is nothing to hush", async () => {
    const done: string[] = [];
    const { ear, emit } = puppet();
    const speaker = voice();
    const listening = new Listening(
      { ...speaker, cancel: () => done.push("hush") },
      UNDERSTANDING,
      (phrase) => done.push(phrase.text),
      HEADSET,
    );
    await listening.start(async () => ear);
    const saying = listening.say("Wait three minutes.");
    speaker.ends[0]?.();
    await saying;
    emit(hears(utterance("co2 nine point two")));
    expect(done).toEqual(["co2 nine point two"]);
  });

  test("an ear that starts while it speaks is not told of it", async () => {
    const { ear, done } = puppet();
    const listening = new Listening(voice(), UNDERSTANDING, () => {}, HEADSET);
    void listening.say("one");
    await listening.start(async () => ear);
    expect(done.at(-1)).toBe("silent");
  });
});
