import { parentPort, workerData } from "node:worker_threads";
import { runStretch } from "./run.ts";
import { TARGETS } from "./targets.ts";
import type { Stretch, Threaded } from "./threads.ts";

/** A thread that reads stretches of inputs, and notes in shared memory which it is at: it cannot tell while it hangs. */
const { seed, at } = workerData as Threaded;
const place = new Float64Array(at);

parentPort?.on("message", async ({ target, from, to }: Stretch) => {
  const one = TARGETS.find(({ name }) => name === target);
  if (!one) throw new RangeError(`no target ${target}`);
  const outcome = await runStretch(one, seed, from, to, (number) => {
    place[0] = number;
    place[1] = Date.now();
  });
  place[1] = 0;
  parentPort?.postMessage(outcome);
});
parentPort?.postMessage("ready");
