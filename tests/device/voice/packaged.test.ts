import { afterEach, describe, expect, test, vi } from "vitest";
import { createPackagedVoice } from "../../../src/device/voice/packaged.ts";
import type { Player } from "../../../src/device/voice/player.ts";
import type { Sound } from "../../../src/device/voice/synthesise.ts";

const settle = () => new Promise<void>((resolve) => setImmediate(resolve));

/** A synthesiser and a player whose work ends when the test says so. A sound is as long as its text. */
function stage() {
  const done: string[] = [];
  const made: { text: string; resolve: (sound: Sound) => void; reject: (error: Error) => void }[] = [];
  const played: ((heard: boolean) => void)[] = [];
  const player: Player = {
    play: ({ samples }) => {
      done.push(`play ${samples.length}`);
      return new Promise((resolve) => played.push(resolve));
    },
    stop: () => {
      done.push("stop");
      played.shift()?.(true);
    },
  };
  const synthesise = (text: string) => {
    done.push(`make ${text}`);
    return new Promise<Sound>((resolve, reject) => made.push({ text, resolve, reject }));
  };
  const make = async () => {
    const next = made.shift();
    next?.resolve({ samples: new Float32Array(next.text.length), rate: 16_000 });
    await settle();
  };
  const end = async (heard = true) => {
    played.shift()?.(heard);
    await settle();
  };
  return { done, made, make, end, voice: createPackagedVoice(synthesise, player) };
}

afterEach(() => void vi.useRealTimers());

test("a sentence is played while the next is made", async () => {
  const { done, make, end, voice } = stage();
  const saying = voice.say("Nine point two. Get help.");
  await make();
  expect(done).toEqual(["make Nine point two.", "make Get help.", "play 15"]);
  await make();
  await end();
  expect(done.at(-1)).toBe("play 9");
  await end();
  expect(await saying).toBe(true);
});

describe("it was not said", () => {
  test("where the synthesiser cannot be loaded", async () => {
    const { made, voice } = stage();
    const saying = voice.say("pass");
    made[0]?.reject(new Error("status 404"));
    expect(await saying).toBe(false);
  });
  test("where the page may make no sound", async () => {
    const { make, end, voice } = stage();
    const saying = voice.say("One. Two.");
    await make();
    await end(false);
    expect(await saying).toBe(false);
  });
  test("where it takes too long, and it is not said late", async () => {
    vi.useFakeTimers({ toFake: ["setTimeout", "clearTimeout"] });
    const { done, make, voice } = stage();
    const saying = voice.say("pass");
    await vi.runAllTimersAsync();
    expect(await saying).toBe(false);
    await make();
    expect(done).toEqual(["make pass"]);
  });
});

describe("cancelled", () => {
  test("while it is made: at once, and nothing is played", async () => {
    const { done, make, voice } = stage();
    const saying = voice.say("pass");
    voice.cancel();
    expect(await saying).toBe(true);
    await make();
    expect(done).toEqual(["make pass", "stop"]);
  });
  test("while it is played: the rest is dropped", async () => {
    const { done, make, voice } = stage();
    const saying = voice.say("One. Two.");
    await make();
    await make();
    voice.cancel();
    expect(await saying).toBe(true);
    expect(done).toEqual(["make One.", "make Two.", "play 4", "stop"]);
  });
  test("the next text is said", async () => {
    const { make, end, voice } = stage();
    voice.cancel();
    const saying = voice.say("pass");
    await make();
    await end();
    expect(await saying).toBe(true);
  });
});
