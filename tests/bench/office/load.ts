import { spawn } from "node:child_process";
import { once } from "node:events";
import { readFileSync } from "node:fs";
import { mkdir, mkdtemp, rm, stat, writeFile } from "node:fs/promises";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { text } from "node:stream/consumers";
import { z } from "zod";
import type { DeviceKey } from "../../../src/device/signing/device-key.ts";
import { makeDeviceKey } from "../../../src/device/signing/signatures.ts";
import { exportVisit } from "../../../src/record/bundle.ts";
import { signedVisit } from "../../support/cryptography.ts";
import { inventedVisit } from "../../support/invented-visits.ts";
import { startPostgres, whyNoPostgres } from "../../support/postgres.ts";

const print = (line: string) => process.stdout.write(`${line}\n`);
const count = new Intl.NumberFormat("en-GB");
const MIB = 1024 * 1024;
const AIM = 20_000;

/** The line that a load ends with. */
const Line = z.looseObject({
  engine: z.string(),
  visits: z.number(),
  skipped: z.number(),
  bad: z.number(),
  entries: z.number(),
  seconds: z.number(),
  entriesPerSecond: z.number(),
});

/** Memory of a process while it ran, MiB: at so many parts of its time, and the most. */
interface Memory {
  readonly at: readonly number[];
  readonly most: number;
}

/** Parts of the time of a load at which its memory is told. */
const SHARES = [0.1, 0.25, 0.5, 0.75, 1] as const;

/** Loads invented bundles of 100 entries into each engine with the real command line, as a process: speed, memory, and answers. */
export async function benchLoad(
  sizes: readonly number[],
  only: string | null,
  signed: boolean,
): Promise<void> {
  const folder = await mkdtemp(join(tmpdir(), "burnerside-office-bench-"));
  const missing = whyNoPostgres();
  const server = only === "embedded" || missing !== null ? null : await startPostgres();
  try {
    if (only !== "embedded" && missing !== null) print(`PostgreSQL skipped: ${missing}.`);
    for (const size of sizes) {
      const bundles = join(folder, `bundles-${size}`);
      await writeBundles(bundles, size, signed ? await makeDeviceKey() : null);
      if (only !== "server")
        await benchEngine("embedded", bundles, size, join(folder, `book-${size}`), folder);
      if (server) await benchEngine(server.name, bundles, size, await server.freshDatabase(), folder);
      await rm(bundles, { recursive: true });
    }
  } finally {
    await server?.stop();
    await rm(folder, { recursive: true, maxRetries: 5 });
  }
}

/** Each signed to its end, where there is a key. */
async function writeBundles(folder: string, size: number, key: DeviceKey | null): Promise<void> {
  await mkdir(folder);
  for (let number = 0; number < size; number += 1) {
    const plain = inventedVisit(number);
    const visit = key ? await signedVisit(plain, { key, entries: plain.entries.length }) : plain;
    await writeFile(join(folder, `visit-${number}.json`), exportVisit(visit));
  }
}

async function benchEngine(
  name: string,
  bundles: string,
  size: number,
  target: string,
  folder: string,
): Promise<void> {
  print(`\n${name}, ${count.format(size)} bundles of 100 entries`);
  const first = await run(["load", bundles, "--to", target]);
  const loaded = Line.parse(JSON.parse(first.out));
  if (loaded.visits !== size || loaded.bad !== 0)
    throw new Error(`Expected ${size} visits, found ${first.out}`);
  const met = loaded.entriesPerSecond >= AIM ? "met" : "NOT MET";
  print(
    `  first load    ${loaded.seconds} s, ${count.format(loaded.entriesPerSecond)} entries a second (aim ${count.format(AIM)}: ${met})`,
  );
  const shares = SHARES.map((share, place) => `${share * 100} % ${first.memory.at[place]?.toFixed(0)}`);
  print(
    `  memory, MiB   at ${shares.join(", ")}; most ${first.memory.most.toFixed(0)} (process with its threads)`,
  );
  const second = await run(["load", bundles, "--to", target]);
  const again = Line.parse(JSON.parse(second.out));
  if (again.skipped !== size) throw new Error(`Expected ${size} skipped, found ${second.out}`);
  print(`  second load   ${again.seconds} s, all skipped`);
  const parquet = join(folder, "readings.parquet");
  const questions: [string, string[]][] = [
    ["visits of a month", ["visits", "--since", "2026-11-28"]],
    ["all visits", ["visits"]],
    ["follow-ups of a day", ["follow-ups", "--until", "2022-01-10"]],
    ["all follow-ups", ["follow-ups"]],
    ["drift", ["drift", "INV 00100"]],
    ["export of readings", ["export", "--parquet", parquet, "--force"]],
  ];
  for (const [what, args] of questions) {
    const { ms, out, memory } = await run([...args, "--from", target]);
    const lines = out.split("\n").length - 1;
    print(
      `  ${what.padEnd(20)} ${(ms / 1000).toFixed(2)} s with the start of the process, ${count.format(lines)} lines, most ${memory.most.toFixed(0)} MiB`,
    );
  }
  print(`  parquet       ${((await stat(parquet)).size / MIB).toFixed(1)} MiB`);
}

interface Run {
  readonly out: string;
  readonly ms: number;
  readonly memory: Memory;
}

/** Runs the command line; what it wrote, how long it took and how much memory it had. Fails where it does. */
async function run(args: readonly string[]): Promise<Run> {
  const started = performance.now();
  const child = spawn(process.execPath, ["--import", "tsx", "src/cli/main.ts", "office", ...args], {
    stdio: ["ignore", "pipe", "pipe"],
  });
  const samples: number[] = [];
  const timer = setInterval(() => samples.push(residentMiB(child.pid)), 200);
  const [out, err, [status]] = await Promise.all([
    text(child.stdout),
    text(child.stderr),
    once(child, "close"),
  ]);
  clearInterval(timer);
  if (status !== 0) throw new Error(`office ${args.join(" ")}: ${err}`);
  const known = samples.filter((sample) => sample > 0);
  const at = SHARES.map(
    (share) => known[Math.min(known.length - 1, Math.floor(share * known.length))] ?? Number.NaN,
  );
  return { out, ms: performance.now() - started, memory: { at, most: Math.max(...known) } };
}

/** Resident memory of a process in MiB, as Linux has it (proc(5), VmRSS); 0 where that is not told. */
function residentMiB(pid: number | undefined): number {
  try {
    const [, kB] = /^VmRSS:\s+(\d+) kB$/m.exec(readFileSync(`/proc/${pid}/status`, "utf8")) ?? [];
    return kB === undefined ? 0 : Number(kB) / 1024;
  } catch {
    return 0;
  }
}
