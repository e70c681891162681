import type { Verdict } from "../judge/judgement.ts";
import type { QuantityId } from "../measure/quantity.ts";
import { spokenNumber } from "../measure/show.ts";

/** What nearly every sheet limits: of the others nobody expects a verdict. O2 is limited by CO2 or by nothing. */
const LIMITED: ReadonlySet<QuantityId> = new Set(["co2", "co", "gas-pressure-inlet"]);

/** Which verdicts are said with their limits. */
export type WithLimits = "none" | "failing" | "all";

/**
 * A verdict in a word or three, with its limits where wanted: "low, eight point seven to nine point seven"; else empty.
 * `hangs`: low-fire CO2 is limited by the accepted high-fire one.
 */
export function verdictWords(verdict: Verdict, withLimits: WithLimits, hangs: boolean): string {
  const word = verdictWord(verdict, hangs);
  const { verdict: kind, limit } = verdict;
  const wanted =
    withLimits === "all" ? kind === "pass" || kind === "fail" : withLimits === "failing" && kind === "fail";
  return wanted && limit ? `${word}, ${spokenBand(limit)}` : word;
}

function verdictWord({ quantity, firing, value, verdict, limit }: Verdict, hangs: boolean): string {
  switch (verdict) {
    case "pass":
      return "good";
    case "fail":
      return limit && limit.min !== null && value < limit.min ? "low" : "high";
    case "wait":
      return "not settled";
    case "no-limit":
      if (!LIMITED.has(quantity)) return "";
      if (hangs && quantity === "co2" && firing === "low") return "not judged before high fire";
      return firing === null && quantity !== "gas-pressure-inlet" ? "firing not known" : "no limit known";
  }
}

/** "Eight point seven to nine point seven", "at most one hundred seventy five", "at least four"; no limit, no words. */
export function spokenBand({ min, max }: Sides): string {
  const [from, to] = [min ?? null, max ?? null];
  if (from !== null && to !== null) return `${spokenNumber(from)} to ${spokenNumber(to)}`;
  if (to !== null) return `at most ${spokenNumber(to)}`;
  return from === null ? "" : `at least ${spokenNumber(from)}`;
}

interface Sides {
  readonly min?: number | null | undefined;
  readonly max?: number | null | undefined;
}
