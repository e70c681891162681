import type { Verdict } from "../judge/judgement.ts";
import type { QuantityId } from "../measure/quantity.ts";

/** Quantities for which a sheet can hold limits: of the others nobody expects a verdict. */
const LIMITED: ReadonlySet<QuantityId> = new Set(["co2", "o2", "co", "gas-pressure-inlet"]);

/** A verdict in a word or three, empty where there is nothing to judge. */
export function verdictWords({ quantity, firing, value, verdict, limit }: Verdict): string {
  switch (verdict) {
    case "pass":
      return "good";
    case "fail":
      return limit?.min !== undefined && limit.min !== null && value < limit.min ? "low" : "high";
    case "wait":
      return "not settled";
    case "no-limit":
      if (!LIMITED.has(quantity)) return "";
      return firing === null && quantity !== "gas-pressure-inlet" ? "firing not known" : "no limit known";
  }
}
