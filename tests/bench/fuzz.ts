/**
 * Every reader of what comes from outside, given broken and hostile inputs: `npm run fuzz [-- --seed N --only NAME --inputs N]`.
 * `--seed N --only NAME --number N` reads one input again and shows it. Exit status 1 where anything failed.
 */
import { parseArgs } from "node:util";
import { type Failure, inputOf, runStretch, type Slowest } from "./fuzz/run.ts";
import { TARGETS } from "./fuzz/targets.ts";
import { runAll, type Stretch } from "./fuzz/threads.ts";

const THREADS = 2;
const TOGETHER = 250;
/** Of one target are shown at most so many. */
const SHOWN = 5;

const print = (line: string): void => void process.stdout.write(`${line}\n`);
const { values } = parseArgs({
  options: {
    seed: { type: "string", default: "1" },
    only: { type: "string", default: "" },
    inputs: { type: "string" },
    number: { type: "string" },
  },
});
const seed = Number(values.seed);
const targets = TARGETS.filter(({ name }) => name.includes(values.only));
if (targets.length === 0)
  throw new RangeError(`--only: expected one of ${TARGETS.map(({ name }) => name).join(", ")}`);

process.exitCode = values.number === undefined ? await all() : await again(Number(values.number));

async function again(number: number): Promise<number> {
  let failed = 0;
  for (const target of targets) {
    const input = inputOf(target, seed, number);
    print(
      `${target.name}: ${input instanceof Uint8Array ? Buffer.from(input).toString("hex") : JSON.stringify(input)}`,
    );
    const { accepted, failures } = await runStretch(target, seed, number, number + 1, () => undefined);
    for (const { sentence } of failures) print(`  ${sentence}`);
    if (failures.length === 0) print(accepted ? "  accepted" : "  refused");
    failed += failures.length;
  }
  return failed > 0 ? 1 : 0;
}

async function all(): Promise<number> {
  const before = performance.now();
  const counts = targets.map(({ name, inputs }) => ({
    name,
    inputs: values.inputs === undefined ? inputs : Number(values.inputs),
  }));
  // A little of each, by turns: what takes long is not all left for the end of one thread.
  const stretches: Stretch[] = counts
    .flatMap(({ name, inputs }) =>
      Array.from({ length: Math.ceil(inputs / TOGETHER) }, (_, part) => ({
        target: name,
        from: part * TOGETHER,
        to: Math.min(inputs, (part + 1) * TOGETHER),
      })),
    )
    .sort((a, b) => a.from - b.from);
  const tallies = new Map(counts.map(({ name }) => [name, emptyTally()]));
  await runAll(stretches, seed, THREADS, ({ target }, { accepted, refused, slowest, failures }) => {
    const tally = tallies.get(target) ?? emptyTally();
    tally.accepted += accepted;
    tally.refused += refused;
    if (slowest.ms > tally.slowest.ms) tally.slowest = slowest;
    tally.failures.push(...failures);
  });

  print("                                inputs  accepted  refused  failed  slowest");
  let [inputs, failed] = [0, 0];
  for (const [name, { accepted, refused, slowest, failures }] of tallies) {
    const read = accepted + refused + failures.length;
    inputs += read;
    failed += failures.length;
    const row = [read, accepted, refused, failures.length].map((each, at) =>
      String(each).padStart([6, 8, 7, 6][at] ?? 6),
    );
    print(
      `${name.padEnd(30)}  ${row.join("  ")}  ${slowest.ms.toFixed(0).padStart(4)} ms (${slowest.number})`,
    );
  }
  const took = ((performance.now() - before) / 1000).toFixed(1);
  const { user, system } = process.cpuUsage();
  const cpu = ((user + system) / 1e6).toFixed(0);
  print(
    `${inputs} inputs, seed ${seed}, ${took} s on ${THREADS} threads, ${cpu} s of processor: ${failed === 0 ? "none failed" : `${failed} FAILED`}`,
  );
  for (const { failures } of tallies.values()) for (const one of failures.slice(0, SHOWN)) show(one);
  return failed === 0 ? 0 : 1;
}

function emptyTally(): { accepted: number; refused: number; slowest: Slowest; failures: Failure[] } {
  return { accepted: 0, refused: 0, slowest: { ms: 0, number: 0 }, failures: [] };
}

function show({ target, number, sentence }: Failure): void {
  print(`  ${target}, input ${number}: ${sentence}`);
  print(`    again: npm run -s fuzz -- --seed ${seed} --only "${target}" --number ${number}`);
}
