import { parentPort } from "node:worker_threads";
import { judged } from "./judged.ts";
import type { Source } from "./sources.ts";

/** A thread that validates and judges: bundles in, rows out, in the order in which they came. */
let before: Promise<void> = Promise.resolve();
parentPort?.on("message", (sources: readonly Source[]) => {
  before = before.then(async () => parentPort?.postMessage(await Promise.all(sources.map(judged))));
});
