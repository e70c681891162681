import { co2FromO2 } from "../../combustion/dilution.ts";
import { secondsBetween } from "../../measure/instant.ts";
import { companion, latest } from "../current.ts";
import type { Situation } from "../situation.ts";
import { untilReadAgain } from "./until-read-again.ts";

/**
 * An analyser's own tolerance, vol-%: O2 0.3, CO2 0.3 (check-values section 10: from memory and unsure, EN 50379).
 * Both at their worst together still count as agreeing.
 */
const O2_TOLERANCE = 0.3;
const CO2_TOLERANCE = 0.3;

/** O2 and CO2 further apart than this, in seconds, are not of one moment. */
const ONE_MOMENT = 60;

/**
 * O2 and CO2 of one moment that cannot both be right for this gas: probe seal, wrong gas, misheard. It stands until O2 is read
 * again with a CO2 that agrees, or one of the two is mended.
 */
export const o2Co2Disagree = untilReadAgain((s) => {
  for (const firing of ["high", "low", null] as const) {
    const o2 = latest(s, "o2", firing);
    const co2 = o2 && companion(s, o2, "co2");
    if (!o2 || !co2 || Math.abs(secondsBetween(o2.at, co2.at)) > ONE_MOMENT) continue;
    if (agree(s, o2.reading.value, co2.reading.value)) continue;
    const text = "Oxygen and C O 2 disagree. Check probe seal and gas, then read both again.";
    return { code: "o2-co2-disagree", text, stop: true };
  }
  return null;
});

function agree(s: Situation, o2: number, co2: number): boolean {
  const { fuel } = s.state.head;
  // Beyond the ends of the scale, the end itself is the nearest that the gas allows.
  const most = co2FromO2(fuel, Math.max(0, o2 - O2_TOLERANCE));
  const least = co2FromO2(fuel, o2 + O2_TOLERANCE) ?? 0;
  return most !== null && co2 <= most + CO2_TOLERANCE + DUST && co2 >= least - CO2_TOLERANCE - DUST;
}

const DUST = 1e-9;
