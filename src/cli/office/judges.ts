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
  /** What it broke on: it answers no more. */
  broken: Error | null;
}

/** More than these the one thread that writes cannot keep up with. */
const MOST_THREADS = 4;

/**
 * As many threads as there are cores, the first one at once, each other when those before are busy: judging takes longer than
 * writing. One takes a second to start, in which a book can be opened.
 */
export function startJudges(threads = Math.min(availableParallelism(), MOST_THREADS)): Judges {
  const started: Thread[] = [startThread()];
  const idlest = (): Thread => {
    const [first, ...others] = started;
    const best = first && others.reduce((a, b) => (b.asked.length < a.asked.length ? b : a), first);
    if (best && (best.asked.length === 0 || started.length >= threads)) return best;
    const thread = startThread();
    started.push(thread);
    return thread;
  };
  return {
    threads,
    judge: (sources) =>
      new Promise((done, failed) => {
        const { asked, worker, broken } = idlest();
        if (broken) return failed(broken);
        asked.push({ done, failed });
        worker.postMessage(sources);
      }),
    close: async () => {
      await Promise.all(started.map(({ worker }) => worker.terminate()));
    },
  };
}

/** Most of what is made of a bundle is gone with it: with room for it, it is never kept by mistake. */
const YOUNG_MIB = 64;

function startThread(): Thread {
  const worker = new Worker(new URL("./judges.worker.mjs", import.meta.url), {
    resourceLimits: { maxYoungGenerationSizeMb: YOUNG_MIB },
  });
  const thread: Thread = { worker, asked: [], broken: null };
  worker.on("message", (judged: readonly Judged[]) => thread.asked.shift()?.done(judged));
  worker.on("error", (error) => {
    thread.broken = error;
    for (const { failed } of thread.asked.splice(0)) failed(error);
  });
  return thread;
}
