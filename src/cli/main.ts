import { createInterface } from "node:readline";
import { run } from "./run.ts";
import { jsonLine, terminalText } from "./terminal.ts";
import type { Io } from "./verb.ts";

const io: Io = {
  // Opened on first use: a verb that reads nothing must not wait for standard input to end.
  get input() {
    return process.stdin;
  },
  get lines() {
    return createInterface({ input: process.stdin, crlfDelay: Number.POSITIVE_INFINITY });
  },
  json: (value) => void process.stdout.write(`${jsonLine(value)}\n`),
  say: (message) => void process.stderr.write(`${terminalText(message)}\n`),
};

// Whoever reads the lines may stop before the last one: "| head".
process.stdout.on("error", (error: NodeJS.ErrnoException) => {
  if (error.code !== "EPIPE") throw error;
  process.exit();
});

process.exitCode = await run(process.argv.slice(2), io);
