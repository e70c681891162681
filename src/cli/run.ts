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

/** Runs what a command line asks for, its verb first; the exit status. */
export async function run([name, ...args]: readonly string[], io: Io): Promise<number> {
  const load = VERBS.get(name ?? "");
  if (load) return (await load()).run(args, io);
  io.say(name === undefined ? "Expected a verb." : `Expected a verb, found "${name}".`);
  const verbs = await Promise.all([...VERBS.values()].map((each) => each()));
  io.say(verbs.map(({ usage }) => `  npm run -s cli -- ${usage}`).join("\n"));
  return 2;
}
