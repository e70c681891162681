import { Worker } from "node:worker_threads";
import type { Outcome } from "./run.ts";

/** Inputs of one target that are read together. */
export interface Stretch {
  readonly target: string;
  readonly from: number;
  readonly to: number;
}

/** What a thread is started with. */
export interface Threaded {
  readonly seed: number;
  /** Two doubles: the number of the input that is being read, and when that began, ms since 1970; 0 where none is. */
  readonly at: SharedArrayBuffer;
}

/** So long one input may keep a thread before it is given up, ms: the machine may be busy. */
const HUNG_MS = 20_000;
const LOOK_MS = 250;

/** Runs stretches on several threads, and tells of each what came of it. A thread that hangs is ended, and the rest of its stretch left out. */
export async function runAll(
  stretches: readonly Stretch[],
  seed: number,
  threads: number,
  tell: (stretch: Stretch, outcome: Outcome) => void,
): Promise<void> {
  const waiting = [...stretches];
  const one = async (): Promise<void> => {
    let thread = await startThread(seed);
    for (let next = waiting.shift(); next; next = waiting.shift()) {
      const outcome = await thread.run(next);
      tell(next, outcome);
      if (!thread.hung()) continue;
      thread = await startThread(seed);
    }
    await thread.end();
  };
  await Promise.all(Array.from({ length: threads }, one));
}

interface Thread {
  run(stretch: Stretch): Promise<Outcome>;
  /** Whether it was ended because an input never came back. */
  hung(): boolean;
  end(): Promise<void>;
}

async function startThread(seed: number): Promise<Thread> {
  const at = new SharedArrayBuffer(16);
  const place = new Float64Array(at);
  const worker = new Worker(new URL("./worker.mjs", import.meta.url), { workerData: { seed, at } });
  await new Promise((resolve, reject) => {
    worker.once("message", resolve);
    worker.once("error", reject);
  });
  let hung = false;
  return {
    hung: () => hung,
    end: async () => void (await worker.terminate()),
    run: (stretch) =>
      new Promise((resolve) => {
        const give = (sentence: string): void => {
          hung = true;
          clearInterval(watch);
          void worker.terminate();
          resolve(gaveUp(stretch, place[0] ?? 0, sentence));
        };
        const watch = setInterval(() => {
          const since = place[1] ?? 0;
          if (since > 0 && Date.now() - since > HUNG_MS) give(`did not come back within ${HUNG_MS / 1000} s`);
        }, LOOK_MS);
        worker.removeAllListeners("message").removeAllListeners("error");
        worker.once("error", (error) => give(`ended its thread: ${error.message}`));
        worker.once("message", (outcome: Outcome) => {
          clearInterval(watch);
          resolve(outcome);
        });
        worker.postMessage(stretch);
      }),
  };
}

function gaveUp({ target }: Stretch, number: number, sentence: string): Outcome {
  return {
    accepted: 0,
    refused: 0,
    slowest: { ms: HUNG_MS, number },
    failures: [{ target, number, sentence }],
  };
}
