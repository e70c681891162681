import { type Kind, missedFaults } from "./faulty.ts";
import { quantile, sum } from "./figures.ts";
import { type Contest, excess, isInRange } from "./sound.ts";

/** What issue 4 asks for, and whether it was met. */
export function aims(contests: readonly Contest[], kinds: readonly Kind[]): string[] {
  const over = excess(contests);
  const apps = contests.map(({ app }) => app.adjustments);
  const oracles = contests.map(({ oracle }) => oracle);
  const thumbs = contests.map(({ thumb }) => thumb.adjustments);
  const at = (values: readonly number[]) => [quantile(values, 0.5), quantile(values, 0.95)] as const;
  const [app50, app95] = at(apps);
  const [oracle50, oracle95] = at(oracles);
  const [, thumb95] = at(thumbs);
  const [over50, over95] = at(over);
  const inRange = contests.filter(({ app }) => isInRange(app)).length;
  const coOver = sum(contests.map(({ app }) => app.coOver));
  const missed = sum(kinds.map((kind) => missedFaults(kind).length));
  const found: [string, boolean][] = [
    [`median the oracle's: ${app50} against ${oracle50}`, app50 <= oracle50],
    [`median of the difference, boiler by boiler, 0: ${over50}`, over50 <= 0],
    [`95 % at most one more than the oracle's: ${app95} against ${oracle95}`, app95 <= oracle95 + 1],
    [`95 % of the difference, boiler by boiler, at most 1: ${over95}`, over95 <= 1],
    [`95 % at most two thirds of small steps: ${app95} against ${thumb95}`, app95 <= (2 / 3) * thumb95],
    [`99 % of sound boilers in range: ${inRange} of ${contests.length}`, inRange >= 0.99 * contests.length],
    [`no step past a CO limit: ${coOver}`, coOver === 0],
    [`every faulty boiler stopped for the right reason: ${missed} missed`, missed === 0],
  ];
  return found.map(([aim, isMet]) => `${isMet ? "met" : "not met"}: ${aim}`);
}
