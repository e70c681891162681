import { coAirFree } from "../../combustion/carbon-monoxide.ts";
import { o2FromCo2 } from "../../combustion/dilution.ts";
import type { Firing } from "../../measure/firing.ts";
import { spokenNumber } from "../../measure/show.ts";
import type { StandingReading } from "../../visit/state.ts";
import { companion, latest } from "../current.ts";
import { limitFor } from "../limits.ts";
import { place } from "../resolution.ts";
import { tooEarly } from "../settle.ts";
import type { Situation } from "../situation.ts";
import type { Danger } from "./rule.ts";

/**
 * CO corrected to air-free, ppm, above which vented heating equipment fails: 400 ppm, ANSI Z21 (Z21.13 for boilers) as
 * quoted in check-values section 4, source S21.
 */
const AIR_FREE_MAX = 400;

const FIRINGS: readonly (Firing | null)[] = ["high", "low", null];

const where = (firing: Firing | null) => (firing ? ` at ${firing} fire` : "");

export function airFreeOver400(s: Situation): Danger | null {
  return firstOf(
    s,
    (co) => {
      const airFree = airFreeOf(s, co);
      if (airFree === null || airFree <= AIR_FREE_MAX) return null;
      return `C O air free ${spokenNumber(Math.ceil(airFree))}${where(co.reading.firing)}, above four hundred.`;
    },
    "flue-co-air-free-over-400",
  );
}

export function coOverLimit(s: Situation): Danger | null {
  return firstOf(
    s,
    (co) => {
      const limit = limitFor(s, co.reading);
      if (!limit || limit.max === null || place(co.reading.value, limit) !== 1) return null;
      return `C O over the limit${where(co.reading.firing)}.`;
    },
    "flue-co-over-limit",
  );
}

/** CO2 above its band, and CO higher than the reading before it in the same firing. */
export function richAndRising(s: Situation): Danger | null {
  for (const firing of FIRINGS) {
    const co = latest(s, "co", firing);
    if (!co || !isNews(s, co) || !isRich(s, co)) continue;
    const before = s.state.readings.findLast(
      ({ seq, reading }) => seq < co.seq && reading.quantity === "co" && reading.firing === firing,
    );
    if (!before || co.reading.value <= before.reading.value) continue;
    return { code: "rich-and-rising", text: `Too rich${where(firing)}, and C O is rising.`, stop: false };
  }
  return null;
}

/**
 * Looks at the last CO of each firing. Where the mixture is too rich, turning it leaner is the remedy, so the danger
 * is told as news but does not stop; where richness does not explain the CO, work stops until a new reading.
 */
function firstOf(
  s: Situation,
  find: (co: StandingReading) => string | null,
  code: Danger["code"],
): Danger | null {
  for (const firing of FIRINGS) {
    const co = latest(s, "co", firing);
    const text = co && find(co);
    if (!co || !text) continue;
    const stop = !isRich(s, co);
    if (stop || isNews(s, co)) return { code, text: stop ? `${text} Get help.` : text, stop };
  }
  return null;
}

function airFreeOf(s: Situation, co: StandingReading): number | null {
  const o2 = companion(s, co, "o2")?.reading.value;
  const co2 = companion(s, co, "co2")?.reading.value;
  const oxygen = o2 ?? (co2 === undefined ? null : o2FromCo2(s.state.head.fuel, co2));
  return oxygen === null ? null : coAirFree(co.reading.value, oxygen);
}

/** Whether the CO2 that belongs to a CO had settled above its band. */
function isRich(s: Situation, co: StandingReading): boolean {
  const co2 = companion(s, co, "co2");
  if (co2 && tooEarly(s, co2) > 0) return false;
  const limit = co2 && limitFor(s, co2.reading);
  return !!co2 && !!limit && place(co2.reading.value, limit) === 1;
}

/** Whether the utterance brought this CO, or the CO2 or O2 that puts it in a new light. */
function isNews(s: Situation, co: StandingReading): boolean {
  const seen = [co, companion(s, co, "co2"), companion(s, co, "o2")];
  return s.fresh.some((r) => seen.includes(r));
}
