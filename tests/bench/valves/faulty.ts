import { drawValve, FAULTS, type FaultName } from "../../support/valve/draw.ts";
import type { Play } from "../../support/valve/play.ts";
import { faultFound } from "../../support/valve/reason.ts";
import { withTheApp } from "../../support/valve/technician.ts";
import { percent, quantile, row, sum } from "./figures.ts";

/** The boilers with one kind of fault. */
export interface Kind {
  readonly fault: FaultName;
  readonly plays: readonly Play[];
}

export function playFaulty(first: number, each: number): Kind[] {
  return FAULTS.map((fault) => {
    process.stderr.write(`${fault}\n`);
    const seeds = Array.from({ length: each }, (_, i) => first + i);
    return { fault, plays: seeds.map((seed) => withTheApp(drawValve(seed, fault), seed)) };
  });
}

/** Those that were not stopped, or for a wrong reason. */
export function missedFaults({ fault, plays }: Kind): Play[] {
  return plays.filter((play) => !faultFound(fault, play));
}

export function faultyReport(kinds: readonly Kind[]): string[] {
  return [
    row(
      "fault",
      "boilers",
      "stopped",
      "for the right reason",
      "adjustments until then, median",
      "most",
      "steps past the CO limit",
    ),
    row(...Array.from({ length: 7 }, () => "---")),
    ...kinds.map(kindRow),
    ...kinds.flatMap((kind) => missedFaults(kind).map((play) => missedLine(kind, play))),
  ];
}

function kindRow(kind: Kind): string {
  const { fault, plays } = kind;
  const counts = plays.map(({ adjustments }) => adjustments);
  const stopped = plays.filter(({ end }) => end === "stopped").length;
  return row(
    fault,
    plays.length,
    percent(stopped, plays.length),
    percent(plays.length - missedFaults(kind).length, plays.length),
    quantile(counts, 0.5),
    Math.max(...counts),
    sum(plays.map(({ coOver }) => coOver)),
  );
}

function missedLine({ fault }: Kind, { seed, end, adjustments, reason, warnings }: Play): string {
  const codes = warnings.map(({ code }) => code).join(" ");
  return `Missed: ${fault}, seed ${seed}: ${end} after ${adjustments} adjustments; ${codes} ${reason}`;
}
