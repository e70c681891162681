import fc from "fast-check";
import { describe, expect, test } from "vitest";
import { Teaching, type TeachingWorld } from "../../../src/app/own-voice/teaching.ts";
import type { SpotterEvent } from "../../../src/device/spotter/spotter.ts";
import type { TeachOutcome } from "../../../src/device/spotter/teaching.ts";
import type { VoiceProfile } from "../../../src/device/spotter/voice-profile.ts";
import { chance } from "../../support/valve/chance.ts";
import { SPEAKS, scoresOf, windowAt } from "./room.ts";
import { voiceOf } from "./voices.ts";

const PUPIL = { id: "p1", name: "Ada" };
const { spotter: LAYERS } = voiceOf();
const BETTER = { heldBack: 4, rightBefore: 2, rightAfter: 4 };
const taught = (gain = BETTER): TeachOutcome => ({ kind: "taught", taught: LAYERS, gain });

/** All of a world, by hand: what the microphone gives, how the training ends. */
function worldOf(change: Partial<TeachingWorld> = {}) {
  const kept: VoiceProfile[] = [];
  const spoken: string[] = [];
  let clock = 0;
  let heard: (event: SpotterEvent) => void = () => {};
  let listens = false;
  let tick = () => {};
  let ending: (outcome: TeachOutcome) => void = () => {};
  let training: { learned: number; heldBack: number; cancelled: boolean } | null = null;
  const drawn = chance(1);
  const world: TeachingWorld = {
    spotter: async () => ({
      listen: async (on) => {
        heard = on;
        listens = true;
        on({ kind: "listening" });
      },
      stop: async () => {
        listens = false;
        heard({ kind: "stopped" });
      },
    }),
    plan: async () => ({ noiseSeconds: 1, words: ["nine", "two"], takes: 2, sentences: [] }),
    speak: async (text) => void (text !== "" && spoken.push(text)),
    hush: () => {},
    train: async (takes, heldBack) => {
      training = { learned: takes.length, heldBack: heldBack.length, cancelled: false };
      const mine = training;
      return {
        outcome: new Promise((resolve) => {
          ending = resolve;
        }),
        cancel: () => {
          mine.cancelled = true;
          ending({ kind: "cancelled" });
        },
      };
    },
    keep: async (profile) => void kept.push(profile),
    tellOthers: () => {},
    now: () => "2026-11-26T10:00:00.000Z",
    elapsedMs: () => clock,
    every: (_, then) => {
      tick = then;
      return () => {
        tick = () => {};
      };
    },
    chance: () => drawn.from(0, 1),
    reason: (error) => (error instanceof Error ? error.message : String(error)),
    ...change,
  };
  const teaching = new Teaching(world);
  const settled = () => new Promise((resolve) => setImmediate(resolve));
  return {
    teaching,
    kept,
    spoken,
    settled,
    emit: (event: SpotterEvent) => heard(event),
    end: async (outcome: TeachOutcome) => {
      ending(outcome);
      await settled();
    },
    listens: () => listens,
    training: () => training,
    /** A second goes by, in which the word that is asked for is said where one is. */
    second: async () => {
      const state = teaching.state.value;
      const asked = state.kind === "reading" ? state.reading.asks[state.reading.at] : null;
      const from = clock;
      const sounds =
        asked?.kind === "word"
          ? SPEAKS.map((sound) => ({ ...sound, from: from + sound.from, to: from + sound.to }))
          : [];
      const scores = scoresOf(asked?.kind === "word" ? asked.word : null);
      for (let step = 0; step < 7; step += 1) {
        clock += 200;
        tick();
        if (listens) heard({ kind: "window", at: clock, spectrogram: windowAt(clock, sounds, -70), scores });
        await settled();
      }
    },
  };
}

type Made = ReturnType<typeof worldOf>;

/** To the training. */
async function readAll(made: Made): Promise<void> {
  await made.teaching.begin(PUPIL);
  for (let seconds = 0; seconds < 20 && made.teaching.state.value.kind === "reading"; seconds += 1)
    await made.second();
  expect(made.teaching.state.value.kind).toBe("training");
}

describe("a voice is taught", () => {
  test("read, learned, measured, and kept as a whole; the microphone is let go before it learns", async () => {
    const made = worldOf();
    await readAll(made);
    expect(made.listens()).toBe(false);
    expect(made.training()).toEqual({
      learned: expect.any(Number),
      heldBack: expect.any(Number),
      cancelled: false,
    });
    expect(made.kept).toEqual([]);
    await made.end(taught());
    expect(made.teaching.state.value).toEqual({ kind: "done", name: "Ada", gain: BETTER, kept: true });
    expect(made.kept).toEqual([
      { ...PUPIL, taughtAt: "2026-11-26T10:00:00.000Z", spotter: LAYERS, gain: BETTER, on: true },
    ]);
    expect(made.spoken.at(-1)).toBe("Better: of 4 takes held back, 2 were right before and 4 are now.");
  });

  test.each([
    ["better", 2, 4, true, "Better: of 4 takes held back, 2 were right before and 4 are now."],
    [
      "as good",
      3,
      3,
      true,
      "No better and no worse: of 4 takes held back, 3 were right before and 3 are now.",
    ],
    [
      "worse",
      3,
      2,
      false,
      "Worse: of 4 takes held back, 3 were right before and 2 are now. It is not kept: the words go on being heard as before.",
    ],
  ])("%s: said as it is", async (_, rightBefore, rightAfter, kept, words) => {
    const made = worldOf();
    await readAll(made);
    await made.end(taught({ heldBack: 4, rightBefore, rightAfter }));
    expect(made.teaching.state.value).toMatchObject({ kind: "done", kept });
    expect(made.kept).toHaveLength(kept ? 1 : 0);
    expect(made.spoken.at(-1)).toBe(words);
  });
});

describe("whatever fails, nothing is kept, and one sentence says why", () => {
  const broken = async (): Promise<never> => {
    throw new Error("no network");
  };
  const reads = async (made: Made) => {
    await made.teaching.begin(PUPIL);
    await made.second();
  };
  test.each<[string, Partial<TeachingWorld>, (made: Made) => Promise<unknown>, string]>([
    [
      "the model does not load",
      { spotter: broken },
      (made) => made.teaching.begin(PUPIL),
      "Own voice could not be loaded: no network.",
    ],
    [
      "what is read does not load",
      { plan: broken },
      (made) => made.teaching.begin(PUPIL),
      "Own voice could not be loaded: no network.",
    ],
    [
      "a denied microphone",
      {
        spotter: async () => ({
          listen: async (on) => on({ kind: "problem", message: "The microphone is not allowed." }),
          stop: async () => {},
        }),
      },
      (made) => made.teaching.begin(PUPIL),
      "The microphone is not allowed.",
    ],
    [
      "a lost microphone",
      {},
      async (made) => {
        await reads(made);
        made.emit({ kind: "problem", message: "The microphone was lost." });
      },
      "The microphone was lost.",
    ],
    [
      "a microphone that is let go by somebody else",
      {},
      async (made) => {
        await reads(made);
        made.emit({ kind: "stopped" });
      },
      "The microphone was let go.",
    ],
    [
      "Cancel while it is read",
      {},
      async (made) => reads(made).then(() => made.teaching.cancel()),
      "Cancelled.",
    ],
    [
      "Cancel while it learns",
      {},
      async (made) => readAll(made).then(() => made.teaching.cancel()),
      "Cancelled.",
    ],
    [
      "another window",
      {},
      async (made) => reads(made).then(() => made.teaching.giveWay()),
      "Another window of Burnerside listens now: this one has stopped.",
    ],
    [
      "what teaches does not load",
      { train: broken },
      async (made) => {
        await made.teaching.begin(PUPIL);
        for (let seconds = 0; seconds < 20; seconds += 1) await made.second();
      },
      "What teaches could not be loaded: no network.",
    ],
    [
      "a training that fails",
      {},
      async (made) => readAll(made).then(() => made.end({ kind: "failed", reason: "the training ran away" })),
      "It could not be learned: the training ran away.",
    ],
    [
      "nothing to measure it by",
      {},
      async (made) => readAll(made).then(() => made.end({ kind: "taught", taught: LAYERS, gain: null })),
      "It could not be learned: nothing was held back to measure it by.",
    ],
    [
      "a full disk",
      {
        keep: async () => {
          throw new Error("the device is out of space for it");
        },
      },
      async (made) => readAll(made).then(() => made.end(taught())),
      "It could not be stored: the device is out of space for it.",
    ],
  ])("%s", async (_, change, work, sentence) => {
    const made = worldOf(change);
    await work(made);
    await made.settled();
    expect(made.teaching.state.value).toEqual({ kind: "ended", sentence: `${sentence} Nothing was kept.` });
    expect(made.kept).toEqual([]);
    expect(made.listens()).toBe(false);
  });

  test("while it is being stored there is nothing to cancel any more: what is said is what is", async () => {
    let stored = () => {};
    const made = worldOf({ keep: () => new Promise((resolve) => (stored = resolve)) });
    await readAll(made);
    await made.end(taught());
    made.teaching.cancel();
    expect(made.teaching.state.value.kind).toBe("training");
    stored();
    await made.settled();
    expect(made.teaching.state.value).toEqual({ kind: "done", name: "Ada", gain: BETTER, kept: true });
  });

  test("a screen that is left while it is read lets the microphone go; while it learns, that is broken off", async () => {
    const read = worldOf();
    await reads(read);
    read.teaching.leave();
    expect([read.listens(), read.teaching.state.value.kind]).toEqual([false, "idle"]);
    const learning = worldOf();
    await readAll(learning);
    learning.teaching.leave();
    expect(learning.training()?.cancelled).toBe(true);
    await learning.end(taught());
    expect(learning.kept).toEqual([]);
  });
});

test("no order of events keeps a profile but all takes and a training that came to its end", () => {
  const happening = fc.constantFrom<[string, ...string[]]>(
    "begin",
    "second",
    "second",
    "second",
    "second",
    "cancel",
    "leave",
    "lost",
    "stopped",
    "away",
    "failed",
    "taught",
    "worse",
  );
  return fc.assert(
    fc.asyncProperty(fc.nat(14), fc.array(happening, { maxLength: 12 }), async (seconds, happenings) => {
      const made = worldOf();
      let mayKeep = 0;
      await made.teaching.begin(PUPIL);
      // About as long as it takes to be through.
      for (let second = 0; second < seconds; second += 1) await made.second();
      for (const one of happenings) {
        const before = made.teaching.state.value.kind;
        if (one === "begin") await made.teaching.begin(PUPIL);
        if (one === "second") await made.second();
        if (one === "cancel") made.teaching.cancel();
        if (one === "leave") made.teaching.leave();
        if (one === "lost") made.emit({ kind: "problem", message: "Lost." });
        if (one === "stopped") made.emit({ kind: "stopped" });
        if (one === "away") made.teaching.giveWay();
        if (one === "failed") await made.end({ kind: "failed", reason: "x" });
        if (one === "taught") {
          if (before === "training") mayKeep += 1;
          await made.end(taught());
        }
        if (one === "worse") await made.end(taught({ heldBack: 4, rightBefore: 4, rightAfter: 3 }));
        await made.settled();
        expect(made.kept.length).toBe(mayKeep);
        if (made.teaching.state.value.kind === "training") {
          // One take of each of the two words is learned from, and one held back.
          expect(made.training()?.learned).toBeGreaterThanOrEqual(2);
          expect(made.training()?.heldBack).toBeGreaterThanOrEqual(2);
        }
      }
    }),
    { numRuns: 60 },
  );
});
