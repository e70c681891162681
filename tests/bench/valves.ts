/**
 * How well the advice sets gas valves, on simulated boilers through the real visit code: `npm run bench:valves`. What is
 * counted: README.md beside this file. After `--`: `--valves N`, `--faulty N` of each kind, `--seed FIRST`, `--worst N`, and
 * `--show SEED [--fault "dead high"]` for one dialogue.
 */
import { parseArgs } from "node:util";
import { drawValve, FAULTS, type FaultName } from "../support/valve/draw.ts";
import { fewestAdjustments } from "../support/valve/oracle.ts";
import { withTheApp } from "../support/valve/technician.ts";
import { aims } from "./valves/aims.ts";
import { faultyReport, playFaulty } from "./valves/faulty.ts";
import { playSound, soundReport, worst } from "./valves/sound.ts";

const { values: args } = parseArgs({
  options: {
    valves: { type: "string", default: "1000" },
    faulty: { type: "string", default: "20" },
    seed: { type: "string", default: "1" },
    worst: { type: "string", default: "0" },
    show: { type: "string" },
    fault: { type: "string" },
  },
});
const print = (lines: readonly string[]) => process.stdout.write(`${lines.join("\n")}\n`);

function number(name: "valves" | "faulty" | "seed" | "worst" | "show", least = 0): number {
  const value = Number(args[name]);
  if (!Number.isInteger(value) || value < least)
    throw new Error(`--${name}: expected a whole number from ${least}`);
  return value;
}

function faultNamed(name: string | undefined): FaultName | null {
  if (name === undefined) return null;
  const fault = FAULTS.find((each) => each === name);
  if (!fault) throw new Error(`--fault: expected one of ${FAULTS.join(", ")}`);
  return fault;
}

function show(seed: number, fault: FaultName | null): void {
  const spec = drawValve(seed, fault);
  const { lines, ...play } = withTheApp(spec, seed);
  print(lines);
  print([JSON.stringify({ ...play, oracle: fault ? null : fewestAdjustments(spec), valve: spec }, null, 1)]);
}

function bench(first: number): void {
  const started = Date.now();
  const { contests, unreachable } = playSound(first, number("valves", 1));
  print([...soundReport(contests, unreachable), ...worst(contests, number("worst")), ""]);
  const kinds = playFaulty(first, number("faulty", 1));
  print([...faultyReport(kinds), "", ...aims(contests, kinds)]);
  process.stderr.write(`${((Date.now() - started) / 1000).toFixed(0)} s\n`);
}

if (args.show === undefined) bench(number("seed"));
else show(number("show"), faultNamed(args.fault));
