import { createInterface } from "node:readline";
import { check } from "./check.ts";
import { combustion } from "./combustion.ts";
import { exportVerb } from "./export/export.ts";
import { hear } from "./hear.ts";
import { office } from "./office/office.ts";
import { parse } from "./parse.ts";
import { report } from "./report.ts";
import { schema } from "./schema.ts";
import type { Io, Verb } from "./verb.ts";
import { visit } from "./visit.ts";

/** Every verb, in the order in which the usage lists them. */
const VERBS: readonly Verb[] = [parse, visit, hear, combustion, check, report, exportVerb, office, schema];

const io: Io = {
  // Opened on first use: a verb that reads no lines must not wait for standard input to end.
  get lines() {
    return createInterface({ input: process.stdin, crlfDelay: Number.POSITIVE_INFINITY });
  },
  json: (value) => void process.stdout.write(`${JSON.stringify(value)}\n`),
  say: (message) => void process.stderr.write(`${message}\n`),
};

// Whoever reads the lines may stop before the last one: "| head".
process.stdout.on("error", (error: NodeJS.ErrnoException) => {
  if (error.code !== "EPIPE") throw error;
  process.exit();
});

const [name, ...args] = process.argv.slice(2);
const verb = VERBS.find((candidate) => candidate.name === name);
if (verb) {
  process.exitCode = await verb.run(args, io);
} else {
  io.say(name === undefined ? "Expected a verb." : `Expected a verb, found "${name}".`);
  io.say(VERBS.map(({ usage }) => `  npm run -s cli -- ${usage}`).join("\n"));
  process.exitCode = 1;
}
