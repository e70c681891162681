import "fake-indexeddb/auto";
import { describe, expect, test } from "vitest";
import { activePhones } from "../../../src/app/own-voice/active-voice.ts";
import { Learning, type LearningWorld } from "../../../src/app/own-voice/learning.ts";
import { storedVoice } from "../../../src/app/own-voice/stored.ts";
import { READERS } from "../../../src/app/readers.ts";
import type { Adapted } from "../../../src/device/ears/offline/adapting.ts";
import { CHANNELS, SYMBOLS } from "../../../src/device/ears/offline/own-head.ts";
import { openNotebook } from "../../../src/device/notebook/notebook.ts";
import type { VoiceProfile } from "../../../src/device/spotter/voice-profile.ts";
import type { Visit } from "../../../src/visit/visit.ts";
import { dialogue } from "../../support/dialogue.ts";
import { numbersLanguage } from "../../support/speech/numbers-language.ts";
import { BASE, voiceOf } from "./voices.ts";

const ADA = voiceOf();
const BEN = voiceOf({ id: "p2", name: "Ben" });
const GAIN = { heldBack: 24, rightBefore: 19, rightAfter: 22 };
const HEAD = { kernel: new Float32Array(CHANNELS * SYMBOLS), bias: new Float32Array(SYMBOLS) };
const BETTER: Adapted = { kind: "better", head: HEAD, gain: GAIN, phrases: 31, base: BASE };
const NOW = "2026-11-26T10:00:00.000Z";

const SAID = dialogue(Array.from({ length: 41 }, () => "co2 9.2")).visit;

/** So many phrases that were confirmed, one after the other, and a last one that was not. */
function visitOf(id: string, confirmed: number): Visit {
  const said = SAID.entries.slice(0, confirmed + 1);
  const entries = said.map((entry) => ({ ...entry, engine: "offline" as const }));
  return { ...SAID, head: { ...SAID.head, id }, entries };
}

interface Shelf {
  readonly voices?: readonly VoiceProfile[];
  /** Visits: how many phrases of each were confirmed, and who spoke. */
  readonly visits?: readonly (readonly [confirmed: number, speaker?: string])[];
  readonly world?: Partial<LearningWorld>;
}

let notebooks = 0;

/** A device with what is on its shelves; the training is ended by the test. */
async function device({ voices = [ADA], visits = [[31, "p1"]], world = {} }: Shelf = {}) {
  notebooks += 1;
  const notebook = await openNotebook(READERS, null, `learning-${notebooks}`);
  for (const voice of voices) await notebook.voices.keep(voice);
  for (const [at, [confirmed, speaker]] of visits.entries()) {
    const visit = visitOf(`v${at}`, confirmed);
    await notebook.addVisit(visit, "here");
    const rows = visit.entries.map(({ seq, at }) => ({
      visitId: visit.head.id,
      seq,
      at,
      type: "audio/wav",
      data: new ArrayBuffer(2),
      ...(speaker !== undefined && { speaker }),
    }));
    await notebook.clips.keepAll(rows, "settings", () => true);
  }
  const asked: number[] = [];
  const done: string[] = [];
  let end: (outcome: Adapted) => void = () => {};
  let told: (fraction: number) => void = () => {};
  const learning = new Learning({
    notebook,
    decode: async () => new Float32Array(16_000),
    language: async () => numbersLanguage(),
    adapt: async ({ clips }, progress) => {
      asked.push(clips.length);
      told = progress;
      return {
        outcome: new Promise((resolve) => {
          end = resolve;
        }),
        cancel: () => done.push("cancelled"),
      };
    },
    listens: () => false,
    changed: async () => void done.push("changed"),
    now: () => NOW,
    reason: (error) => (error instanceof Error ? error.message : String(error)),
    ...world,
  });
  /** Until the training is under way; it goes on in `running`. */
  const started = async (id = "p1") => {
    const before = asked.length;
    const running = learning.learn(id);
    while (asked.length === before) await new Promise((resolve) => setTimeout(resolve, 1));
    await new Promise((resolve) => setImmediate(resolve));
    return { running };
  };
  const learned = async (outcome: Adapted) => {
    const { running } = await started();
    end(outcome);
    await running;
  };
  const phones = async (id = "p1") => storedVoice(await notebook.voices.get(id))?.phones;
  const sentence = () => (learning.state.value.kind === "ended" ? learning.state.value.sentence : "");
  return {
    learning,
    notebook,
    asked,
    done,
    learned,
    phones,
    sentence,
    started,
    tell: (fraction: number) => told(fraction),
    end: (outcome: Adapted) => end(outcome),
  };
}

describe("what is learned of phrases", () => {
  test("is kept with the voice where it is better, and used when that person speaks", async () => {
    const { learning, notebook, asked, learned, phones, sentence, done } = await device();
    await learned(BETTER);
    expect(asked).toEqual([31]);
    expect(await phones()).toEqual({
      base: BASE,
      head: HEAD,
      gain: GAIN,
      phrases: 31,
      learnedAt: NOW,
      on: true,
    });
    expect(sentence()).toBe(
      "Better: of 24 tries with phrases held back 19 were right before, 22 now. It counts when the ear is started again.",
    );
    expect(done).toEqual(["changed"]);
    expect((await activePhones(notebook, "p1"))?.gain).toEqual(GAIN);
    expect(await activePhones(notebook, null)).toBeNull();
    await learning.switch("p1", false);
    expect((await phones())?.on).toBe(false);
    await learning.forget("p1");
    expect(await phones()).toBeUndefined();
    expect(storedVoice(await notebook.voices.get("p1"))?.spotter).toEqual(ADA.spotter);
  });

  test.each<[string, Adapted, string]>([
    [
      "no better",
      { kind: "no-better", gain: { ...GAIN, rightAfter: 19 }, because: "no-more-right", base: BASE },
      "Not better: of 24 tries with phrases held back 19 were right before, 19 now. Nothing was kept.",
    ],
    [
      "more right, and harm",
      { kind: "no-better", gain: GAIN, because: "more-wrong", base: BASE },
      "More was right (of 24 tries with phrases held back 19 were right before, 22 now), but more would be logged wrong. Nothing was kept.",
    ],
    [
      "too few known words",
      { kind: "too-few", found: 12, base: BASE },
      "Not enough yet: 12 of 30 confirmed phrases.",
    ],
    ["a failure", { kind: "failed", reason: "no memory" }, "It could not learn: no memory."],
  ])("%s: nothing is kept", async (_, outcome, words) => {
    const { learned, phones, sentence } = await device();
    await learned(outcome);
    expect([sentence(), await phones()]).toEqual([words, undefined]);
  });

  test("what was learned before stays where the new is no better", async () => {
    const { learned, phones } = await device();
    await learned(BETTER);
    await learned({ kind: "no-better", gain: GAIN, because: "more-wrong", base: BASE });
    expect((await phones())?.phrases).toBe(31);
  });

  test("cancelled: nothing is kept, and what comes late is not heard", async () => {
    const { learning, started, end, tell, phones, sentence, done } = await device();
    const { running } = await started();
    tell(0.5);
    expect(learning.state.value).toEqual({ kind: "learning", fraction: 0.5 });
    learning.cancel();
    tell(0.6);
    end(BETTER);
    await running;
    expect([sentence(), done, await phones()]).toEqual([
      "Cancelled. Nothing was kept.",
      ["cancelled"],
      undefined,
    ]);
  });

  test("deleted meanwhile: there is nobody to keep it of", async () => {
    const { notebook, started, end, phones, sentence } = await device();
    const { running } = await started();
    await notebook.voices.drop("p1");
    end(BETTER);
    await running;
    expect([sentence(), await phones()]).toEqual([
      "That voice is not here any more. Nothing was kept.",
      undefined,
    ]);
  });

  test("never while the ear listens; started while it learns, the ear has the device", async () => {
    const listening = await device({ world: { listens: () => true } });
    await listening.learning.learn("p1");
    expect([listening.sentence(), listening.asked]).toEqual(["The ear listens: stop it first.", []]);
    const { learning, started, end, sentence } = await device();
    const { running } = await started();
    learning.giveWay();
    end(BETTER);
    await running;
    expect(sentence()).toBe("Stopped, because the ear listens. Nothing was kept.");
  });
});

describe("whose phrases", () => {
  const both = [ADA, BEN];
  test.each<[string, Shelf, string]>([
    ["not enough", { visits: [[12, "p1"]] }, "12"],
    [
      "of several visits",
      {
        visits: [
          [12, "p1"],
          [13, "p1"],
        ],
      },
      "25",
    ],
    [
      "another's are not learned from",
      {
        voices: both,
        visits: [
          [12, "p1"],
          [13, "p2"],
        ],
      },
      "12",
    ],
    ["said while anybody spoke, though one voice alone is here", { visits: [[12], [13, "p1"]] }, "13"],
    ["of whom nobody knows, where several share it", { voices: both, visits: [[12], [13, "p1"]] }, "13"],
    ["of somebody who is not here any more", { visits: [[12, "gone"]] }, "0"],
    [
      "sound that cannot be read",
      { visits: [[31, "p1"]], world: { decode: () => Promise.reject(new Error("no")) } },
      "0",
    ],
    [
      "too long for one thing",
      { visits: [[31, "p1"]], world: { decode: async () => new Float32Array(16_000 * 13) } },
      "0",
    ],
  ])("%s", async (_, shelf, found) => {
    const { learning, sentence, asked } = await device(shelf);
    await learning.learn("p1");
    expect([sentence(), asked]).toEqual([`Not enough yet: ${found} of 30 confirmed phrases.`, []]);
  });

  test("of many the last 80", async () => {
    const { asked, learned } = await device({
      visits: [
        [40, "p1"],
        [40, "p1"],
        [40, "p1"],
      ],
    });
    await learned(BETTER);
    expect(asked).toEqual([80]);
  });
});
