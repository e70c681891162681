import { describe, expect, test } from "vitest";
import type { Earcon } from "../../src/answer/earcon.ts";
import { createSpeaker } from "../../src/device/speaker.ts";
import type { Voice } from "../../src/device/voice/voice.ts";

const settle = () => new Promise<void>((resolve) => setImmediate(resolve));

/** A voice that writes down what it is given; a text is over when the test ends it. */
function puppet(done: string[], name: string) {
  const ends: ((said: boolean) => void)[] = [];
  const voice: Voice = {
    say: (text) => {
      done.push(`${name}: ${text}`);
      return new Promise((resolve) => ends.push(resolve));
    },
    cancel: () => void done.push(`${name} cut`),
  };
  return { voice, end: (said = true) => ends.shift()?.(said) };
}

function stage() {
  const done: string[] = [];
  const first = puppet(done, "first");
  const second = puppet(done, "second");
  const tone = async (earcon: Earcon) => {
    if (earcon !== "none") done.push(earcon);
  };
  return { done, first, second, speaker: createSpeaker([first.voice, second.voice], tone) };
}

/** Whether a promise has resolved by now. */
async function isOver(speaking: Promise<void>): Promise<boolean> {
  let over = false;
  void speaking.then(() => {
    over = true;
  });
  await settle();
  return over;
}

describe("the preferred voice speaks, another where it cannot, else nobody", () => {
  test("the first", async () => {
    const { done, first, speaker } = stage();
    const speaking = speaker.speak("pass");
    expect(await isOver(speaking)).toBe(false);
    first.end();
    await speaking;
    expect(done).toEqual(["first: pass"]);
  });
  test("the second", async () => {
    const { done, first, second, speaker } = stage();
    const speaking = speaker.speak("pass");
    await settle();
    first.end(false);
    expect(await isOver(speaking)).toBe(false);
    second.end();
    await speaking;
    expect(done).toEqual(["first: pass", "second: pass"]);
  });
  test("nobody", async () => {
    const { first, second, speaker } = stage();
    const speaking = speaker.speak("pass");
    await settle();
    first.end(false);
    await settle();
    second.end(false);
    await expect(speaking).resolves.toBeUndefined();
  });
  test("nor is nothing said: of it the tone sounds alone, where there is one", async () => {
    const { done, speaker } = stage();
    await speaker.speak("");
    expect(done).toEqual([]);
    await speaker.speak("", "warning");
    expect(done).toEqual(["warning"]);
  });
});

test("one text after the other, each behind its tone", async () => {
  const { done, first, speaker } = stage();
  const one = speaker.speak("one", "heard");
  const two = speaker.speak("two", "warning");
  await settle();
  expect(done).toEqual(["heard", "first: one"]);
  first.end();
  await one;
  expect(await isOver(two)).toBe(false);
  expect(done).toEqual(["heard", "first: one", "warning", "first: two"]);
  first.end();
  await two;
});

describe("cancelling", () => {
  test("ends all that wait, and what waits is never said", async () => {
    const { done, first, speaker } = stage();
    const all = [speaker.speak("one"), speaker.speak("two")];
    await settle();
    speaker.cancel();
    await expect(Promise.all(all)).resolves.toHaveLength(2);
    first.end();
    await settle();
    expect(done).toEqual(["first: one", "first cut", "second cut"]);
  });
  test("during the tone drops the text", async () => {
    const done: string[] = [];
    const { voice } = puppet(done, "voice");
    let endTone: () => void = () => undefined;
    const speaker = createSpeaker([voice], () => new Promise((resolve) => (endTone = resolve)));
    const speaking = speaker.speak("one", "heard");
    await settle();
    speaker.cancel();
    await speaking;
    endTone();
    await settle();
    expect(done).toEqual(["voice cut"]);
  });
  test("a voice that gives up then is not followed by the next", async () => {
    const { done, first, speaker } = stage();
    void speaker.speak("one");
    await settle();
    speaker.cancel();
    first.end(false);
    await settle();
    expect(done).not.toContain("second: one");
  });
  test("does not touch what is said afterwards", async () => {
    const { done, first, speaker } = stage();
    void speaker.speak("one");
    await settle();
    speaker.cancel();
    const two = speaker.speak("two");
    expect(await isOver(two)).toBe(false);
    first.end();
    first.end();
    await two;
    expect(done.at(-1)).toBe("first: two");
  });
});
