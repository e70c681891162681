/**
 * How well the advice sets gas valves, on simulated boilers through the real visit code: `npm run bench:valves`. What is
 * counted: README.md beside this file. `-- --valves N`, `--seed FIRST`, `--show SEED [--fault "dead high"]` for one dialogue.
 */
import { parseArgs } from "node:util";
import { drawValve, FAULTS, type FaultName } from "../support/valve/draw.ts";
import { fewestAdjustments } from "../support/valve/oracle.ts";
import type { Play } from "../support/valve/play.ts";
import { faultFound } from "../support/valve/reason.ts";
import { byRuleOfThumb } from "../support/valve/rule-of-thumb.ts";
import { withTheApp } from "../support/valve/technician.ts";

const { values: args } = parseArgs({
  options: {
    valves: { type: "string", default: "1000" },
    faulty: { type: "string", default: "20" },
    seed: { type: "string", default: "1" },
    show: { type: "string" },
    fault: { type: "string" },
  },
});
const print = (line: string) => process.stdout.write(`${line}\n`);

function quantile(values: readonly number[], share: number): number {
  const sorted = [...values].sort((a, b) => a - b);
  return sorted[Math.min(sorted.length - 1, Math.floor(share * sorted.length))] ?? Number.NaN;
}

const percent = (part: number, whole: number) => `${((100 * part) / whole).toFixed(1)} %`;

function row(name: string, plays: readonly Play[]): void {
  const ended = plays.filter(({ end }) => end === "in-range");
  const counts = ended.map(({ adjustments }) => adjustments);
  const minutes = ended.map((play) => play.minutes);
  const steps = plays.reduce((sum, { adjustments }) => sum + adjustments, 0);
  const coOver = plays.reduce((sum, play) => sum + play.coOver, 0);
  const passed = plays.reduce((sum, play) => sum + play.passed, 0);
  const truly = plays.filter((play) => play.end === "in-range" && play.truly).length;
  print(
    `| ${name} | ${quantile(counts, 0.5)} | ${quantile(counts, 0.95)} | ${Math.max(...counts)} | ${quantile(minutes, 0.5).toFixed(0)} | ` +
      `${quantile(minutes, 0.95).toFixed(0)} | ${percent(ended.length, plays.length)} | ${percent(truly, plays.length)} | ${coOver} of ${steps} | ${passed} |`,
  );
}

function sound(
  first: number,
  count: number,
): { median: number; differences: number[]; plays: Play[]; rule: Play[]; fewest: number[] } {
  const plays: Play[] = [];
  const rule: Play[] = [];
  const fewest: number[] = [];
  for (let seed = first; plays.length < count; seed += 1) {
    const spec = drawValve(seed);
    const least = fewestAdjustments(spec);
    // A valve that even the oracle cannot set with a hand's fractions is not sound for this sheet.
    if (least === null) continue;
    fewest.push(least);
    plays.push(withTheApp(spec, seed));
    rule.push(byRuleOfThumb(spec, seed));
    if (plays.length % 100 === 0) process.stderr.write(`${plays.length} of ${count}\n`);
  }
  const differences = plays.flatMap((play, i) =>
    play.end === "in-range" ? [play.adjustments - (fewest[i] ?? 0)] : [],
  );
  return { median: quantile(differences, 0.5), differences, plays, rule, fewest };
}

function show(seed: number, fault: FaultName | null): void {
  const spec = drawValve(seed, fault);
  const play = withTheApp(spec, seed);
  for (const line of play.lines) print(line);
  const { lines: _lines, ...rest } = play;
  const { sheet: _sheet, ...valve } = spec;
  print(JSON.stringify({ ...rest, fewest: fault ? null : fewestAdjustments(spec), ...valve }, null, 1));
}

function bench(first: number, count: number, faulty: number): void {
  print(`Seeds from ${first}.\n`);
  print(
    "| | adjustments, median | 95 % | most | minutes, median | 95 % | in range | truly, within 0.1 | steps past the CO limit | past the far side |",
  );
  print("| --- | --- | --- | --- | --- | --- | --- | --- | --- | --- |");
  const { plays, rule, fewest, differences } = sound(first, count);
  row("burnerside", plays);
  row("rule of thumb", rule);
  print(
    `| oracle | ${quantile(fewest, 0.5)} | ${quantile(fewest, 0.95)} | ${Math.max(...fewest)} | | | 100 % | | | |\n`,
  );

  const histogram = new Map<number, number>();
  for (const each of differences) histogram.set(each, (histogram.get(each) ?? 0) + 1);
  const bars = [...histogram]
    .sort(([a], [b]) => a - b)
    .map(([more, times]) => `${more > 0 ? "+" : ""}${more}: ${times}`);
  print(`More adjustments than the oracle's: ${bars.join(", ")}`);
  const expected = plays.reduce((sum, play) => sum + play.expected, 0);
  const missed = plays.reduce((sum, play) => sum + play.missed, 0);
  print(`Expectations missed by more than 0.1: ${missed} of ${expected} (${percent(missed, expected)})`);
  for (const play of plays.filter(({ end }) => end !== "in-range"))
    print(`Not in range: seed ${play.seed}, ${play.end} ${play.reason}`);

  print(
    `\n| fault, ${faulty} boilers each | stopped | right reason | adjustments until then, median | most |`,
  );
  print("| --- | --- | --- | --- | --- |");
  let wrong = 0;
  for (const name of FAULTS) {
    const runs = Array.from({ length: faulty }, (_, i) => withTheApp(drawValve(first + i, name), first + i));
    const right = runs.filter((play) => faultFound(name, play));
    wrong += runs.length - right.length;
    const counts = runs.map(({ adjustments }) => adjustments);
    const stopped = runs.filter(({ end }) => end === "stopped").length;
    print(
      `| ${name} | ${percent(stopped, runs.length)} | ${percent(right.length, runs.length)} | ${quantile(counts, 0.5)} | ${Math.max(...counts)} |`,
    );
    for (const play of runs.filter((each) => !right.includes(each)))
      print(
        `|   seed ${play.seed} | ${play.end} | ${play.warnings.map(({ code }) => code).join(" ")}: ${play.reason} | | |`,
      );
  }

  const app95 = quantile(
    plays.map(({ adjustments }) => adjustments),
    0.95,
  );
  const rule95 = quantile(
    rule.map(({ adjustments }) => adjustments),
    0.95,
  );
  const inRange = plays.filter(({ end }) => end === "in-range").length;
  const coOver = plays.reduce((sum, play) => sum + play.coOver, 0);
  print("");
  const aims: [string, boolean][] = [
    ["median of the differences to the oracle is 0", quantile(differences, 0.5) === 0],
    ["95 % of them at most 1", quantile(differences, 0.95) <= 1],
    [
      `95th percentile at most two thirds of the rule of thumb's (${app95} against ${rule95})`,
      app95 <= (2 / 3) * rule95,
    ],
    ["99 % of sound valves in range", inRange >= 0.99 * plays.length],
    ["no step past a CO limit", coOver === 0],
    ["every faulty valve stopped with the right reason", wrong === 0],
  ];
  for (const [aim, met] of aims) print(`${met ? "met" : "NOT MET"}: ${aim}`);
}

if (args.show !== undefined) show(Number(args.show), FAULTS.find((name) => name === args.fault) ?? null);
else bench(Number(args.seed), Number(args.valves), Number(args.faulty));
