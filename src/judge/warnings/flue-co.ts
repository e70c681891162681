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
import { untilReadAgain } from "./until-read-again.ts";

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

export const airFreeOver400 = untilReadAgain((s) => {
  return firstOf(s, "flue-co-air-free-over-400", untilTurned, (co) => {
    const airFree = airFreeOf(s, co);
    if (airFree === null || airFree <= AIR_FREE_MAX) return null;
    const said = `Air free C O ${spokenNumber(Math.ceil(airFree))}${where(co.reading.firing)}`;
    if (airFree > SHUT_DOWN) {
      const cured = airFree <= NO_MORE && leanerCures(s, co);
      const text = `${said}. Shut the burner down${cured ? ", turn, then fire again" : ""}.`;
      return { text, cured, stands: true };
    }
    return { text: `${said}, above four hundred.`, cured: leanerCures(s, co) };
  });
});

export const coOverLimit = untilReadAgain((s) => {
  return firstOf(s, "flue-co-over-limit", isNews, (co) => {
    const limit = limitFor(s, co.reading);
    if (!limit || limit.max === null || place(co.reading.value, limit) !== 1) return null;
    // Before CO2 was read as it is set now, nobody knows whether richness explains a moderate CO: it is read first.
    const isOpen = companion(s, co, "co2") === null && co.reading.value <= AIR_FREE_MAX;
    const said = `C O over the limit${where(co.reading.firing)}.`;
    return { text: said + shutDownUncorrected(s, co), cured: isOpen || leanerCures(s, co) };
  });
});

/** Where the sheet gives no CO limit, general guidance holds. */
export const coOverGuidance = untilReadAgain((s) => {
  return firstOf(s, "co-over-guidance", isNews, (co) => {
    if (limitFor(s, co.reading) !== null) return null;
    const { value, firing } = co.reading;
    const co2 = companion(s, co, "co2");
    const ratio = co2 && coCo2Ratio(value, co2.reading.value);
    const cured = leanerCures(s, co);
    if (ratio !== null && dusted(ratio) > RATIO_MAX) {
      const said = `C O to C O 2 ratio ${spokenNumber(Number(ratio.toPrecision(2)))}${where(firing)}`;
      return { text: `${said}, above zero point zero zero four.`, cured };
    }
    const airFree = airFreeOf(s, co);
    // Above 400 air-free the graver warning has said it.
    if (value <= CO_MAX || (airFree !== null && airFree > AIR_FREE_MAX)) return null;
    const said = `C O ${spokenNumber(value)}${where(firing)}, above ${spokenNumber(CO_MAX)}.`;
    return { text: said + shutDownUncorrected(s, co), cured };
  });
});

/** Without O2 or CO2 of its setting, CO as read is the least that its air-free value can be. */
function shutDownUncorrected(s: Situation, co: StandingReading): string {
  return airFreeOf(s, co) === null && co.reading.value > SHUT_DOWN ? " Shut the burner down." : "";
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
  /** As in Danger. */
  readonly stands?: boolean;
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
  const found = FIRINGS.flatMap((firing) => {
    const co = latest(s, "co", firing);
    const finding = co && find(co);
    return co && finding ? [{ co, text: finding.text, stands: finding.stands ?? false }] : [];
  });
  // What stopped the work at this setting stops it still, though a digit of CO2 now looks rich; no milder one hides it.
  const stopping = found.find(({ co }) => sameSetting(s, co).some(stops));
  if (stopping) return { code, text: `${stopping.text} Get help.`, stop: true };
  const told = found.find(({ co }) => tells(s, co));
  return told ? { code, text: told.text, stop: false, stands: told.stands } : null;
}

/** The CO readings of a firing since a screw was last turned. */
function sameSetting(s: Situation, co: StandingReading): readonly StandingReading[] {
  const touch = s.state.adjustments.findLast(({ seq }) => seq < co.seq)?.seq ?? -1;
  return s.state.readings.filter(
    ({ seq, reading }) => seq > touch && reading.quantity === "co" && reading.firing === co.reading.firing,
  );
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
