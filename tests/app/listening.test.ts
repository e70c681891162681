import { describe, expect, test } from "vitest";
import { Listening, phraseOf } from "../../src/app/listening.ts";
import type { Ear, EarEvent } from "../../src/device/ears/ear.ts";
import type { Utterance } from "../../src/meaning/heard.ts";

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
    deafen: (deaf) => done.push(deaf ? "deaf" : "hears"),
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

describe("the best hypothesis becomes a phrase", () => {
  test("words, confidence and sound", () =>
    expect(phraseOf(utterance("c o forty"))).toEqual({
      text: "c o forty",
      engine: "offline",
      confidence: 0.8,
      sound: SOUND,
    }));
  test.each([
    ["rejected", utterance("hand me the key", { rejected: true })],
    ["no words", utterance("")],
    ["no hypothesis", utterance("co2", { hypotheses: [] })],
  ])("not where there is none: %s", (_, heard) => expect(phraseOf(heard)).toBeNull());
});

test("the ear is deaf until the last of two overlapping answers is over", async () => {
  const { ear, done } = puppet();
  const speaker = voice();
  const listening = new Listening(speaker, () => {});
  await listening.start(async () => ear);
  done.length = 0;
  const all = [listening.say("one"), listening.say("two")];
  expect(listening.speaking.value).toBe(true);
  speaker.ends[0]?.();
  await all[0];
  expect(done.at(-1)).toBe("deaf");
  speaker.ends[1]?.();
  await all[1];
  expect(done.at(-1)).toBe("hears");
  expect(listening.speaking.value).toBe(false);
});

test("the ear is deaf while kept sound plays, and hears again when playing fails", async () => {
  const { ear, done } = puppet();
  const listening = new Listening(voice(), () => {});
  await listening.start(async () => ear);
  done.length = 0;
  await expect(listening.whileDeaf(() => Promise.reject(new Error("no sound")))).rejects.toThrow("no sound");
  expect(done).toEqual(["deaf", "hears"]);
  expect(listening.speaking.value).toBe(false);
});

test("an ear that starts while the app speaks starts deaf", async () => {
  const { ear, done } = puppet();
  const listening = new Listening(voice(), () => {});
  void listening.say("one");
  await listening.start(async () => ear);
  expect(done.at(-1)).toBe("deaf");
});

test("speech for the log comes out as phrases, the rest is counted", async () => {
  const heard: string[] = [];
  const { ear, emit } = puppet();
  const listening = new Listening(voice(), (phrase) => heard.push(phrase.text));
  await listening.start(async () => ear);
  emit({ kind: "utterance", utterance: utterance("c o forty") });
  emit({ kind: "utterance", utterance: utterance("hand me the key", { rejected: true }) });
  expect(heard).toEqual(["c o forty"]);
  expect(listening.ignored.value).toBe(1);
});

test("a stop while the ear still loads wins", async () => {
  const { ear } = puppet();
  const listening = new Listening(voice(), () => {});
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
  const listening = new Listening(voice(), (phrase) => heard.push(phrase.text));
  await listening.start(async () => ear);
  await listening.stop();
  emit({ kind: "utterance", utterance: utterance("c o forty") });
  emit({ kind: "listening" });
  expect(heard).toEqual([]);
  expect(listening.state.value).toEqual({ kind: "off" });
});

test("a problem and a failed load are one sentence in the state", async () => {
  const { ear, emit } = puppet();
  const listening = new Listening(voice(), () => {});
  await listening.start(async () => ear);
  emit({ kind: "problem", message: "The microphone was refused." });
  expect(listening.state.value).toEqual({ kind: "problem", message: "The microphone was refused." });
  await listening.start(() => Promise.reject(new Error("no model")));
  expect(listening.state.value).toEqual({
    kind: "problem",
    message: "The recogniser could not be loaded: no model",
  });
});
