import { describe, expect, test, vi } from "vitest";
import { synthesiseInWorker, type VoiceWorker } from "../../../src/device/voice/in-worker.ts";
import type { FromVoice, ToVoice } from "../../../src/device/voice/messages.ts";

/** A worker whose messages the test writes. */
function fake() {
  const target = new EventTarget();
  const asked: ToVoice[] = [];
  const terminate = vi.fn();
  const worker: VoiceWorker = {
    addEventListener: target.addEventListener.bind(target),
    postMessage: (message: ToVoice) => void asked.push(message),
    terminate,
  };
  return {
    worker,
    asked,
    terminate,
    tell: (data: FromVoice) => target.dispatchEvent(new MessageEvent("message", { data })),
    fail: () => target.dispatchEvent(new Event("error")),
  };
}

const sound = (length: number) => ({ samples: new Float32Array(length), rate: 16_000 });

describe("the synthesiser in a worker", () => {
  test("no worker before the first text, one for all", () => {
    const open = vi.fn(() => fake().worker);
    const synthesise = synthesiseInWorker(open);
    expect(open).not.toHaveBeenCalled();
    void synthesise("one");
    void synthesise("two");
    expect(open).toHaveBeenCalledOnce();
  });
  test("each text gets its own sound, in whatever order they come", async () => {
    const { worker, asked, tell } = fake();
    const synthesise = synthesiseInWorker(() => worker);
    const both = [synthesise("one"), synthesise("two")];
    expect(asked.map(({ text }) => text)).toEqual(["one", "two"]);
    const [first, second] = asked;
    tell({ kind: "sound", id: second?.id ?? 0, sound: sound(2) });
    tell({ kind: "sound", id: first?.id ?? 0, sound: sound(1) });
    expect((await Promise.all(both)).map(({ samples }) => samples.length)).toEqual([1, 2]);
  });
  test("a text that fails rejects alone", async () => {
    const { worker, asked, tell } = fake();
    const synthesise = synthesiseInWorker(() => worker);
    const [bad, good] = [synthesise("one"), synthesise("two")];
    tell({ kind: "failed", id: asked[0]?.id ?? 0, reason: "voice.wasm: status 404" });
    tell({ kind: "sound", id: asked[1]?.id ?? 0, sound: sound(2) });
    await expect(bad).rejects.toThrow("status 404");
    expect((await good).samples).toHaveLength(2);
  });
  test("a worker that breaks fails what waits, and the next text gets a new one", async () => {
    const workers = [fake(), fake()];
    let opened = 0;
    const synthesise = synthesiseInWorker(() => workers[opened++]?.worker ?? fake().worker);
    const lost = synthesise("one");
    workers[0]?.fail();
    await expect(lost).rejects.toThrow("broke");
    expect(workers[0]?.terminate).toHaveBeenCalledOnce();
    void synthesise("two");
    expect(workers[1]?.asked.map(({ text }) => text)).toEqual(["two"]);
  });
});
