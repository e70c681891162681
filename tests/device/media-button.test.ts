import { describe, expect, test, vi } from "vitest";
import { readWav } from "../../src/cli/wav.ts";
import { createMediaButton, silentWav } from "../../src/device/media-button.ts";

const settle = () => new Promise<void>((resolve) => setImmediate(resolve));

function page({ mayPlay = true } = {}) {
  const handlers = new Map<string, unknown>();
  const session = {
    playbackState: "none" as MediaSessionPlaybackState,
    metadata: null,
    setActionHandler: (action: string, handler: unknown) => void handlers.set(action, handler),
  };
  const touched = new EventTarget();
  const state = { playing: false, mayPlay };
  const element = {
    play: async () => {
      if (!state.mayPlay) throw new DOMException("not allowed", "NotAllowedError");
      state.playing = true;
    },
    pause: () => {
      state.playing = false;
    },
  };
  const press = vi.fn();
  const button = createMediaButton(press, { session, touched, play: () => element });
  return { button, press, handlers, session, touched, state };
}

describe("a headset's button", () => {
  test("is ours from when it is taken: silence plays and each action presses", async () => {
    const { button, press, handlers, state } = page();
    expect([state.playing, handlers.size]).toEqual([false, 0]);
    button.take();
    await settle();
    expect(state.playing).toBe(true);
    for (const action of ["play", "pause", "stop"]) {
      const handler = handlers.get(action);
      if (typeof handler === "function") handler();
    }
    expect(press).toHaveBeenCalledTimes(3);
  });
  test("is given back", async () => {
    const { button, handlers, session, state } = page();
    button.take();
    await settle();
    button.show(true);
    button.release();
    expect([...handlers.values()]).toEqual([null, null, null]);
    expect([session.playbackState, state.playing]).toEqual(["none", false]);
  });
  test("the platform is told what is on, while it is ours", () => {
    const { button, session } = page();
    button.show(true);
    expect(session.playbackState).toBe("none");
    button.take();
    button.show(true);
    expect(session.playbackState).toBe("playing");
    button.show(false);
    expect(session.playbackState).toBe("paused");
  });
  test("where the page may not play yet, silence starts with the next touch", async () => {
    const { button, state, touched } = page({ mayPlay: false });
    button.take();
    await settle();
    expect(state.playing).toBe(false);
    state.mayPlay = true;
    touched.dispatchEvent(new Event("pointerdown"));
    await settle();
    expect(state.playing).toBe(true);
  });
  test("but not once it was given back", async () => {
    const { button, state, touched } = page({ mayPlay: false });
    button.take();
    await settle();
    button.release();
    state.mayPlay = true;
    touched.dispatchEvent(new Event("pointerdown"));
    await settle();
    expect(state.playing).toBe(false);
  });
  test("where the platform has none, nothing happens", () => {
    const play = vi.fn();
    const button = createMediaButton(vi.fn(), { session: undefined, touched: new EventTarget(), play });
    button.take();
    button.show(true);
    button.release();
    expect(play).not.toHaveBeenCalled();
  });
});

test("the silence is a WAV file that an independent reader finds silent and longer than five seconds", () => {
  const read = readWav(silentWav());
  if (!read.ok) throw new Error(read.found);
  const { samples, rate } = read.recording;
  expect(samples.length / rate).toBeGreaterThan(5);
  expect(samples.every((sample) => sample === 0)).toBe(true);
});
