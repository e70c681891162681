import { ownScript } from "../own-script.ts";
import type { Clip } from "./clip.ts";
import workerUrl from "./opus.worker.ts?worker&url";
import { wavClip } from "./wav.ts";

/** Makes clips of sound: mono samples at 16 kHz, full scale 1. */
export interface ClipEncoder {
  /** Loads what encoding needs, so that it is there when the network is not. */
  prepare(): void;
  /** Opus where the browser can, else WAV; never rejects. */
  encode(sound: Float32Array): Promise<Clip>;
}

/** To the worker: the sound, and the port on which its one answer comes back. */
export interface EncodeRequest {
  readonly sound: Float32Array;
  readonly reply: MessagePort;
}
/** Null where the sound could not be encoded. */
export type EncodeReply = Clip | null;

/** Longer than any encoding takes (a second of sound takes milliseconds): the worker is stuck or gone. */
const PATIENCE_MS = 30_000;

/** Encodes in a worker of its own, loaded when first needed. */
export function createClipEncoder(): ClipEncoder {
  let worker: Worker | null = null;

  const load = (): Worker => {
    if (worker) return worker;
    const loaded = new Worker(ownScript(workerUrl), { type: "module" });
    // A worker that did not load is tried anew with the next sound.
    loaded.addEventListener("error", () => drop(loaded));
    worker = loaded;
    return loaded;
  };
  const drop = (which: Worker): void => {
    which.terminate();
    if (worker === which) worker = null;
  };

  const opus = (sound: Float32Array): Promise<EncodeReply> =>
    new Promise((resolve) => {
      const mine = load();
      const { port1, port2 } = new MessageChannel();
      const done = (reply: EncodeReply): void => {
        clearTimeout(timer);
        port1.close();
        mine.removeEventListener("error", failed);
        resolve(reply);
      };
      const failed = (): void => done(null);
      const timer = setTimeout(() => {
        drop(mine);
        failed();
      }, PATIENCE_MS);
      mine.addEventListener("error", failed);
      port1.addEventListener("message", ({ data }: MessageEvent<EncodeReply>) => done(data));
      port1.start();
      const request: EncodeRequest = { sound, reply: port2 };
      mine.postMessage(request, [port2]);
    });

  return {
    prepare: () => void load(),
    // Where no worker can be started, the sound is kept all the same.
    encode: async (sound) => (await opus(sound).catch(() => null)) ?? wavClip(sound),
  };
}
