import { drawValve } from "../../support/valve/draw.ts";
import { fewestAdjustments } from "../../support/valve/oracle.ts";
import type { Play } from "../../support/valve/play.ts";
import { byRule, bySheet, smallSteps } from "../../support/valve/rule-of-thumb.ts";
import { withTheApp } from "../../support/valve/technician.ts";
import { histogram, percent, quantile, row, sum } from "./figures.ts";

/** One sound boiler, set by each. */
export interface Contest {
  readonly seed: number;
  readonly app: Play;
  /** Fixed small steps; as far as the sheet's figure says. */
  readonly thumb: Play;
  readonly figure: Play;
  readonly oracle: number;
}

/** Boilers from this seed on; those that nobody can set in a hand's fractions are left out and counted. */
export function playSound(first: number, count: number): { contests: Contest[]; unreachable: number } {
  const contests: Contest[] = [];
  let seed = first;
  for (; contests.length < count; seed += 1) {
    const spec = drawValve(seed);
    const oracle = fewestAdjustments(spec);
    if (oracle === null) continue;
    contests.push({
      seed,
      app: withTheApp(spec, seed),
      thumb: byRule(smallSteps, spec, seed),
      figure: byRule(bySheet, spec, seed),
      oracle,
    });
    if (contests.length % 100 === 0) process.stderr.write(`sound: ${contests.length} of ${count}\n`);
  }
  return { contests, unreachable: seed - first - count };
}

export const isInRange = ({ end }: Play) => end === "in-range";

/** How many adjustments more than the oracle, of those that got there. */
export function excess(contests: readonly Contest[]): number[] {
  return contests.filter(({ app }) => isInRange(app)).map(({ app, oracle }) => app.adjustments - oracle);
}

export function soundReport(contests: readonly Contest[], unreachable: number): string[] {
  const apps = contests.map(({ app }) => app);
  const fewest = contests.map(({ oracle }) => oracle);
  const over = excess(contests);
  const expected = sum(apps.map((play) => play.expected));
  const missed = sum(apps.map((play) => play.missed));
  const misheard = apps.flatMap((play) => play.misheard);
  return [
    row(
      `${contests.length} sound boilers`,
      "adjustments, median",
      "95 %",
      "most",
      "minutes, median",
      "95 %",
      "in range, as read",
      "truly, within 0.1",
      "truly",
      "steps past the CO limit",
      "past the far side",
    ),
    row(...Array.from({ length: 11 }, () => "---")),
    technician("burnerside", apps),
    technician(
      "small steps",
      contests.map(({ thumb }) => thumb),
    ),
    technician(
      "the sheet's figure",
      contests.map(({ figure }) => figure),
    ),
    row("oracle", ...spreadOf(fewest), "", "", "", "", "", "", ""),
    "",
    `Adjustments more than the oracle's: ${histogram(over)}`,
    `CO2 truly more than 0.1 outside of what was to be expected: ${missed} of ${expected} (${percent(missed, expected)})`,
    `CO of the other firing over its limit after a step: burnerside ${sum(apps.map((play) => play.coOverElsewhere))}, small steps ${sum(contests.map(({ thumb }) => thumb.coOverElsewhere))}`,
    `Asked about, or logged otherwise than meant: ${misheard.length} of ${sum(apps.map((play) => play.phrases))} phrases${misheard.length > 0 ? `, such as "${misheard[0]}"` : ""}`,
    `Left out, for no hand's fractions reach the band: ${unreachable}`,
    ...apps
      .filter((play) => !isInRange(play))
      .map(({ seed, end, reason }) => `Not in range: seed ${seed}, ${end} ${reason}`),
  ];
}

/** The boilers on which the app needed most more than the oracle. */
export function worst(contests: readonly Contest[], count: number): string[] {
  return [...contests]
    .sort((a, b) => b.app.adjustments - b.oracle - (a.app.adjustments - a.oracle))
    .slice(0, count)
    .map(
      ({ seed, app, thumb, oracle }) =>
        `seed ${seed}: ${app.adjustments} adjustments, oracle ${oracle}, small steps ${thumb.adjustments}, ${app.end}`,
    );
}

function technician(name: string, plays: readonly Play[]): string {
  const done = plays.filter(isInRange);
  const minutes = done.map((play) => play.minutes);
  return row(
    name,
    ...spreadOf(done.map(({ adjustments }) => adjustments)),
    quantile(minutes, 0.5).toFixed(0),
    quantile(minutes, 0.95).toFixed(0),
    percent(done.length, plays.length),
    percent(done.filter(({ truly }) => truly).length, plays.length),
    percent(done.filter(({ exactly }) => exactly).length, plays.length),
    `${sum(plays.map(({ coOver }) => coOver))} of ${sum(plays.map(({ adjustments }) => adjustments))}`,
    sum(plays.map(({ passed }) => passed)),
  );
}

const spreadOf = (counts: readonly number[]) => [
  quantile(counts, 0.5),
  quantile(counts, 0.95),
  Math.max(...counts),
];
