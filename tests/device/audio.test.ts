import { afterEach, beforeEach, describe, expect, test, vi } from "vitest";
import { createAudio } from "../../src/device/audio.ts";

beforeEach(() => void vi.useFakeTimers());
afterEach(() => void vi.useRealTimers());

/** A context that wakes only where a page was touched. */
function page({ touched = false } = {}) {
  const target = new EventTarget();
  const context = { state: "suspended", resume: vi.fn() };
  let allowed = touched;
  context.resume.mockImplementation(() => {
    if (!allowed) return new Promise(() => undefined);
    context.state = "running";
    return Promise.resolve();
  });
  const open = vi.fn(() => context as unknown as AudioContext);
  const audio = createAudio(open, target);
  const touch = (kind: string) => {
    allowed = true;
    target.dispatchEvent(new Event(kind));
  };
  return { audio, open, touch, context };
}

const running = async (audio: ReturnType<typeof page>["audio"]) => {
  const asked = audio.running();
  await vi.runAllTimersAsync();
  return (await asked) !== null;
};

describe("the page's sound", () => {
  test("is not opened before it is needed, and then once", async () => {
    const { audio, open } = page({ touched: true });
    expect(open).not.toHaveBeenCalled();
    expect([await running(audio), await running(audio)]).toEqual([true, true]);
    expect(open).toHaveBeenCalledOnce();
  });
  test("is none before the page was touched, and does not wait for it for ever", async () =>
    expect(await running(page().audio)).toBe(false));
  test.each(["pointerdown", "keydown"])("wakes with the first %s, once that was answered", async (kind) => {
    const { audio, open, touch, context } = page();
    touch(kind);
    expect(open).not.toHaveBeenCalled();
    await vi.runAllTimersAsync();
    expect(context.state).toBe("running");
    expect(await running(audio)).toBe(true);
  });
  test("is none where a page has none", async () => {
    const audio = createAudio(() => {
      throw new ReferenceError("AudioContext is not defined");
    }, new EventTarget());
    expect(await running(audio)).toBe(false);
  });
  test("is asked back where it was taken, as by a phone call", async () => {
    const { audio, context } = page({ touched: true });
    await running(audio);
    context.state = "interrupted";
    expect(await running(audio)).toBe(true);
  });
});
