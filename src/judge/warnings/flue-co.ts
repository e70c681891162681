import { coCo2Ratio } from "../../combustion/carbon-monoxide.ts";
import type { Firing } from "../../measure/firing.ts";
import { spokenNumber } from "../../measure/show.ts";
import type { StandingReading } from "../../visit/state.ts";
import { companion, latest } from "../current.ts";
import { AIR_FREE_MAX, airFreeOf, isRich, leanerCures } from "../lean.ts";
import { limitFor } from "../limits.ts";
import { dusted, place } from "../resolution.ts";
import type { Situation } from "../situation.ts";
import type { Danger } from "./rule.ts";

/** CO air-free, ppm, above which the burner is shut down at once: DVGW G 680, check-values section 4, source S33. */
const SHUT_DOWN = 1000;

/** CO air-free, ppm, above which no turn is advised, however rich the mixture. Our own caution. */
const NO_MORE = 2000;

/**
 * CO/CO2 above which a condensing boiler without a maker's figure fails: UK industry guidance 2013, check-values section 4,
 * source S22.
 */
const RATIO_MAX = 0.004;

/** CO, ppm, above which the same guidance fails it whatever its ratio: source S22. */
const CO_MAX = 350;

const FIRINGS: readonly (Firing | null)[] = ["high", "low", null];

const where = (firing: Firing | null) => (firing ? ` at ${firing} fire` : "");

export function airFreeOver400(s: Situation): Danger | null {
  return firstOf(s, "flue-co-air-free-over-400", untilTurned, (co) => {
    const airFree = leastAirFree(s, co);
    if (airFree <= AIR_FREE_MAX) return null;
    const name = airFreeOf(s, co) === null ? "C O" : "C O air free";
    const said = `${name} ${spokenNumber(Math.ceil(airFree))}${where(co.reading.firing)}`;
    if (airFree > SHUT_DOWN) {
      const cured = airFree <= NO_MORE && leanerCures(s, co);
      return { text: `${said}. Shut the burner down${cured ? ", turn, then fire again" : ""}.`, cured };
    }
    return { text: `${said}, above four hundred.`, cured: leanerCures(s, co) };
  });
}

export function coOverLimit(s: Situation): Danger | null {
  return firstOf(s, "flue-co-over-limit", isNews, (co) => {
    const ofSheet = limitFor(s, co.reading);
    // The graver warning says it already.
    if (!ofSheet && leastAirFree(s, co) > AIR_FREE_MAX) return null;
    const limit = ofSheet ?? { min: null, max: CO_MAX };
    if (limit.max === null || place(co.reading.value, limit) !== 1) return null;
    const name = ofSheet ? "the limit" : spokenNumber(CO_MAX);
    // Before CO2 was read as it is set now, nobody knows whether richness explains it: it is read first.
    const cured = (ofSheet && companion(s, co, "co2") === null) || leanerCures(s, co);
    return { text: `C O over ${name}${where(co.reading.firing)}.`, cured };
  });
}

/** Where the sheet gives no CO limit, the general ratio holds. */
export function coRatioHigh(s: Situation): Danger | null {
  return firstOf(s, "co-ratio-high", isNews, (co) => {
    const co2 = companion(s, co, "co2");
    const ratio =
      co2 && limitFor(s, co.reading) === null ? coCo2Ratio(co.reading.value, co2.reading.value) : null;
    if (ratio === null || dusted(ratio) <= RATIO_MAX) return null;
    const said = `C O to C O 2 ratio ${spokenNumber(Number(ratio.toPrecision(2)))}${where(co.reading.firing)}`;
    return { text: `${said}, above zero point zero zero four.`, cured: leanerCures(s, co) };
  });
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

/** What is wrong with a CO, and whether turning leaner is the cure. */
interface Finding {
  readonly text: string;
  readonly cured: boolean;
}

/**
 * Looks at the last CO of each firing. Where turning leaner is the remedy the danger does not stop, and is told while `tells`
 * says so; where richness does not explain the CO, work stops until a new reading, or until a misheard one is mended.
 */
function firstOf(
  s: Situation,
  code: Danger["code"],
  tells: (s: Situation, co: StandingReading) => boolean,
  find: (co: StandingReading) => Finding | null,
): Danger | null {
  const stops = (co: StandingReading) => find(co)?.cured === false;
  for (const firing of FIRINGS) {
    const co = latest(s, "co", firing);
    const found = co && find(co);
    // What stopped the work at this setting stops it still, though a digit of CO2 now looks rich.
    if (co && found && sameSetting(s, co).some(stops)) {
      return { code, text: `${found.text} Get help.`, stop: true };
    }
    if (co && found && tells(s, co)) return { code, text: found.text, stop: false };
  }
  return null;
}

/** The CO readings of a firing since a screw was last turned. */
function sameSetting(s: Situation, co: StandingReading): readonly StandingReading[] {
  const touch = s.state.adjustments.findLast(({ seq }) => seq < co.seq)?.seq ?? -1;
  return s.state.readings.filter(
    ({ seq, reading }) => seq > touch && reading.quantity === "co" && reading.firing === co.reading.firing,
  );
}

/** CO air-free, ppm; without O2 or CO2 of its setting what was read, the least that it can be. */
function leastAirFree(s: Situation, co: StandingReading): number {
  return airFreeOf(s, co) ?? co.reading.value;
}

/** Whether the burner still is set as it was when this CO was read. */
function untilTurned({ state }: Situation, co: StandingReading): boolean {
  return state.adjustments.every(({ seq }) => seq < co.seq);
}

/** Whether the utterance brought this CO, or the CO2 or O2 that puts it in a new light. */
function isNews(s: Situation, co: StandingReading): boolean {
  const seen = [co, companion(s, co, "co2"), companion(s, co, "o2")];
  return s.fresh.some((r) => seen.includes(r));
}
