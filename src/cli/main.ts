import { createInterface } from "node:readline";
import type { Io, Verb } from "./verb.ts";

/** Every verb, in the order in which the usage lists them; each is loaded when it is asked for. */
const VERBS: ReadonlyMap<string, () => Promise<Verb>> = new Map([
  ["parse", async () => (await import("./parse.ts")).parse],
  ["visit", async () => (await import("./visit.ts")).visit],
  ["hear", async () => (await import("./hear.ts")).hear],
  ["combustion", async () => (await import("./combustion.ts")).combustion],
  ["check", async () => (await import("./check.ts")).check],
  ["report", async () => (await import("./report.ts")).report],
  ["export", async () => (await import("./export/export.ts")).exportVerb],
  ["office", async () => (await import("./office/office.ts")).office],
  ["schema", async () => (await import("./schema.ts")).schema],
]);

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
const load = VERBS.get(name ?? "");
if (load) {
  const verb = await load();
  process.exitCode = await verb.run(args, io);
} else {
  io.say(name === undefined ? "Expected a verb." : `Expected a verb, found "${name}".`);
  const verbs = await Promise.all([...VERBS.values()].map((each) => each()));
  io.say(verbs.map(({ usage }) => `  npm run -s cli -- ${usage}`).join("\n"));
  process.exitCode = 2;
}
