import { capital } from "../measure/capital.ts";
import type { Firing } from "../measure/firing.ts";
import { quantityOf } from "../measure/quantity.ts";
import type { StandingReading } from "../visit/state.ts";
import { type Ask, goTo, NONE, read, stop, turn, wait } from "./ask.ts";
import { current } from "./current.ts";
import type { Limit } from "./judgement.ts";
import { leanerCures } from "./lean.ts";
import { limitFor } from "./limits.ts";
import { dusted, place } from "./resolution.ts";
import { SETTLING, settleLeft } from "./settle.ts";
import type { Situation } from "./situation.ts";
import { chooseStep } from "./step.ts";
import { spokenScrew } from "./turns.ts";
import { beliefOf, hinders, isConfirmed } from "./valve/belief.ts";
import { carbonOf } from "./valve/carbon.ts";
import { faultText } from "./valve/fault.ts";
import { verdictOf } from "./verdict.ts";

type FlueQuantity = "co2" | "o2" | "co";

/** What has to be read in a firing: what the sheet limits there; CO2 where it limits nothing. */
export function needed(s: Situation, firing: Firing): readonly FlueQuantity[] {
  const limited = (["co2", "co", "o2"] as const).filter((q) => s.limits?.[firing][q] !== undefined);
  return limited.length > 0 ? limited : ["co2"];
}

/** Whether a reading is no obstacle: it passed, or there is no limit to hold it against. */
function isGood(s: Situation, r: StandingReading, firing: Firing, quantity: FlueQuantity): boolean {
  const { verdict } = verdictOf(s, r);
  return verdict === "pass" || (verdict === "no-limit" && s.limits?.[firing][quantity] === undefined);
}

/** Whether a firing is proved: everything needed was read as it is now set, after `seq`, and is in its limits. */
export function isProved(s: Situation, firing: Firing, seq = -1): boolean {
  return needed(s, firing).every((quantity) => {
    const r = current(s, quantity, firing);
    return r !== null && r.seq > seq && isGood(s, r, firing, quantity);
  });
}

/** The next thing to do to prove a firing: go there, wait, read, turn. */
export function askForFiring(s: Situation, firing: Firing): Ask {
  if (s.state.firing?.firing !== firing) return goTo(firing);
  const left = settleLeft(s);
  if (left > 0) return wait(left);
  const co2 = current(s, "co2", firing);
  if (co2 && verdictOf(s, co2).verdict === "fail")
    return askForTurn(s, firing, co2, limitFor(s, co2.reading));
  const co = current(s, "co", firing);
  if (co2 && co && verdictOf(s, co).verdict === "fail" && leanerCures(s, co)) {
    return askForTurn(s, firing, co2, leanerPart(s, co2));
  }
  return unsettled(s, firing) ? letSettle(askForReading(s, firing)) : askForReading(s, firing);
}

/** Whether the flue was not read since the burner went to this firing: its gas needs a while to follow. */
function unsettled({ state }: Situation, firing: Firing): boolean {
  const { readings, firing: now } = state;
  const last = readings.findLast(
    ({ reading: { quantity, firing: at } }) => SETTLING.has(quantity) && at === firing,
  );
  return now !== null && (last === undefined || last.at < now.since);
}

function letSettle(ask: Ask): Ask {
  if (ask.advice.action !== "read") return ask;
  return { ...ask, next: `Let it settle, then ${ask.next[0]?.toLowerCase()}${ask.next.slice(1)}` };
}

/** The part of the CO2 band that is leaner than now: where CO is too high at the top of it. */
function leanerPart(s: Situation, { reading }: StandingReading): Limit | null {
  const band = limitFor(s, reading);
  return band && { min: band.min, max: dusted(reading.value - LEANER_BY) };
}

/** vol-% CO2: what an analyser shows for sure. */
const LEANER_BY = 0.2;

/** The first needed reading that is missing, or a stop where one is out of limits that no turn can mend. */
export function askForReading(s: Situation, firing: Firing, seq = -1): Ask {
  for (const quantity of needed(s, firing)) {
    const r = current(s, quantity, firing);
    const { spoken } = quantityOf(quantity);
    if (r === null || r.seq <= seq) return read(spoken, firing);
    if (!isGood(s, r, firing, quantity)) {
      return stop(`${capital(spoken)} is out of limits. Follow the maker's instructions.`);
    }
  }
  return { advice: NONE, next: "Nothing to do at this firing." };
}

function askForTurn(s: Situation, firing: Firing, co2: StandingReading, band: Limit | null): Ask {
  const belief = beliefOf(s, firing);
  if (!s.sheet || !band || !belief) return read(quantityOf("co2").spoken, firing);
  const { value } = co2.reading;
  const rise = place(value, band) < 0 ? 1 : -1;
  const fault = hinders(belief, rise) ? belief.fault : null;
  if (fault?.sure) return stop(`${faultText(fault, firing)} Get help.`);
  if (fault && !isConfirmed(belief)) return read(`${quantityOf("co2").spoken} again, to be sure`, firing);
  const carbon = rise > 0 ? carbonOf(s, firing) : null;
  // Richer brings more CO: not before it is known how much there is.
  if (rise > 0 && !carbon && s.limits?.[firing].co?.max !== undefined) {
    return read(quantityOf("co").spoken, firing);
  }
  const adjuster = s.sheet.adjusters[firing];
  const step = chooseStep({ value, rise, band, adjuster, bank: belief.bank, carbon });
  if (!step) {
    return stop(`No step of the ${spokenScrew(firing)} is small enough to stay in limits. Get help.`);
  }
  const waitSeconds = s.sheet.settleSeconds[firing];
  return turn({ action: "turn", adjuster: firing, ...step, waitSeconds });
}
