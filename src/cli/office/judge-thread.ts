import { parentPort } from "node:worker_threads";
import { judged } from "./judged.ts";
import type { Source } from "./sources.ts";

/** A thread that validates and judges: bundles in, rows out, in the order in which they came. */
parentPort?.on("message", (sources: readonly Source[]) => {
  parentPort?.postMessage(sources.map(judged));
});
