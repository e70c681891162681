import { availableParallelism } from "node:os";
import { Worker } from "node:worker_threads";
import type { Judged } from "./judged.ts";
import type { Source } from "./sources.ts";

/** Threads that validate and judge, so that this one is free to write. */
export interface Judges {
  readonly threads: number;
  judge(sources: readonly Source[]): Promise<readonly Judged[]>;
  close(): Promise<void>;
}

interface Asked {
  readonly done: (judged: readonly Judged[]) => void;
  readonly failed: (error: Error) => void;
}

interface Thread {
  readonly worker: Worker;
  /** What it was asked and has not answered, the oldest first. */
  readonly asked: Asked[];
}

/** One thread fewer than there are cores, at least one. */
export function startJudges(threads = Math.max(1, availableParallelism() - 1)): Judges {
  const all = Array.from({ length: threads }, startThread);
  return {
    threads,
    judge: (sources) =>
      new Promise((done, failed) => {
        const idlest = all.reduce((a, b) => (b.asked.length < a.asked.length ? b : a));
        idlest.asked.push({ done, failed });
        idlest.worker.postMessage(sources);
      }),
    close: async () => {
      await Promise.all(all.map(({ worker }) => worker.terminate()));
    },
  };
}

function startThread(): Thread {
  const worker = new Worker(new URL("./judges.worker.mjs", import.meta.url));
  const asked: Asked[] = [];
  worker.on("message", (judged: readonly Judged[]) => asked.shift()?.done(judged));
  worker.on("error", (error) => {
    for (const { failed } of asked.splice(0)) failed(error);
  });
  return { worker, asked };
}
