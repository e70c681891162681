import { afterEach, describe, expect, test, vi } from "vitest";
import type { Clip } from "../../../src/device/clips/clip.ts";
import {
  createClipEncoder,
  type EncodeReply,
  type EncodeRequest,
} from "../../../src/device/clips/encoder.ts";
import { wavClip } from "../../../src/device/clips/wav.ts";

const SOUND = new Float32Array([0, 0.5, -0.5]);
const OPUS: Clip = { type: "audio/ogg; codecs=opus", data: new ArrayBuffer(4) };

/** A browser whose workers answer so, or fail to load; counts the workers that were started. */
function workers(answer: EncodeReply | "fails to load") {
  const started: Worker[] = [];
  class FakeWorker extends EventTarget {
    constructor() {
      super();
      started.push(this as unknown as Worker);
      if (answer === "fails to load") setImmediate(() => this.dispatchEvent(new Event("error")));
    }
    postMessage({ reply }: EncodeRequest) {
      if (answer !== "fails to load") reply.postMessage(answer);
    }
    terminate() {}
  }
  vi.stubGlobal("Worker", FakeWorker);
  vi.stubGlobal("location", new URL("http://localhost/"));
  return started;
}

afterEach(() => void vi.unstubAllGlobals());

test("what the worker made is the clip", async () => {
  workers(OPUS);
  expect(await createClipEncoder().encode(SOUND)).toEqual(OPUS);
});

test("one worker serves all, and is there before the first sound if asked", async () => {
  const started = workers(OPUS);
  const encoder = createClipEncoder();
  encoder.prepare();
  expect(started).toHaveLength(1);
  await Promise.all([encoder.encode(SOUND), encoder.encode(SOUND)]);
  expect(started).toHaveLength(1);
});

describe("the sound is kept as WAV where there is no Opus", () => {
  test("the browser has no encoder", async () => {
    workers(null);
    expect(await createClipEncoder().encode(SOUND)).toEqual(wavClip(SOUND));
  });
  test("the worker does not load; it is tried anew with the next sound", async () => {
    const started = workers("fails to load");
    const encoder = createClipEncoder();
    expect(await encoder.encode(SOUND)).toEqual(wavClip(SOUND));
    expect(await encoder.encode(SOUND)).toEqual(wavClip(SOUND));
    expect(started).toHaveLength(2);
  });
  test("no worker can be started", async () => {
    vi.stubGlobal("Worker", undefined);
    expect(await createClipEncoder().encode(SOUND)).toEqual(wavClip(SOUND));
  });
});
