import { ownScript } from "../own-script.ts";
import type { FromVoice, ToVoice } from "./messages.ts";
import type { Sound, Synthesise } from "./synthesise.ts";
import workerUrl from "./worker.ts?worker&url";

/** What is used of a Worker. */
export type VoiceWorker = Pick<Worker, "postMessage" | "addEventListener" | "terminate">;

const openWorker = (): VoiceWorker => new Worker(ownScript(workerUrl), { type: "module", name: "voice" });

interface Waiting {
  readonly resolve: (sound: Sound) => void;
  readonly reject: (error: Error) => void;
}

/** The synthesiser in a worker of its own, started with the first text; one that broke is started anew with the next. */
export function synthesiseInWorker(open: () => VoiceWorker = openWorker): Synthesise {
  const waiting = new Map<number, Waiting>();
  let worker: VoiceWorker | null = null;
  let ids = 0;

  const start = (): VoiceWorker => {
    const started = open();
    started.addEventListener("message", ({ data }: MessageEvent<FromVoice>) => {
      const one = waiting.get(data.id);
      waiting.delete(data.id);
      if (data.kind === "sound") one?.resolve(data.sound);
      else one?.reject(new Error(data.reason));
    });
    started.addEventListener("error", () => {
      started.terminate();
      worker = null;
      for (const { reject } of waiting.values()) reject(new Error("the voice's worker broke"));
      waiting.clear();
    });
    return started;
  };

  return (text) =>
    new Promise((resolve, reject) => {
      ids += 1;
      waiting.set(ids, { resolve, reject });
      worker ??= start();
      const message: ToVoice = { kind: "synthesise", id: ids, text };
      worker.postMessage(message);
    });
}
