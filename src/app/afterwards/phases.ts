import type { Verdict } from "../../judge/judgement.ts";
import { situationOf } from "../../judge/situation.ts";
import { verdictOf } from "../../judge/verdict.ts";
import { capital } from "../../measure/capital.ts";
import { type QuantityId, quantityOf } from "../../measure/quantity.ts";
import { shownValue } from "../../measure/show.ts";
import { shownUnit } from "../../measure/unit.ts";
import { phasesOf } from "../../visit/phase.ts";
import type { PhaseRow, StandingReading, VisitState } from "../../visit/state.ts";
import { firingName, shownLimit } from "../wording.ts";

/** A value in the comparison, with its verdict where there is one. */
export interface PhaseValue {
  readonly value: string;
  readonly verdict: Verdict["verdict"] | null;
}

/** As found beside as left, of one quantity at one firing. */
export interface PhaseLine {
  readonly key: string;
  /** "CO2, high fire". */
  readonly name: string;
  /** "8.5 to 9.5 %"; "" where no limit is known. */
  readonly limit: string;
  /** The last that was read before anything was turned; null where nothing was. */
  readonly found: PhaseValue | null;
  readonly left: PhaseValue | null;
}

/** The order in which they are told: what the maker limits first. */
const FIRST: readonly QuantityId[] = ["gas-pressure-inlet", "co2", "co", "o2"];

/** As found and as left, side by side, judged by the limits as they stand. `now` is ISO 8601. */
export function phaseLines(state: VisitState, now: string): PhaseLine[] {
  const s = situationOf(state, [], now);
  const rank = ({ quantity }: PhaseRow) =>
    FIRST.includes(quantity) ? FIRST.indexOf(quantity) : FIRST.length;
  const judged = (r: StandingReading | null): PhaseValue | null => {
    if (!r) return null;
    const { verdict } = verdictOf(s, r);
    return {
      value: shownValue(r.reading.value, r.reading.unit),
      verdict: verdict === "no-limit" ? null : verdict,
    };
  };
  return phasesOf(state)
    .map((row, place) => ({ row, place }))
    .sort((a, b) => rank(a.row) - rank(b.row) || a.place - b.place)
    .map(({ row }) => {
      const { quantity, firing, condition, asFound, asLeft } = row;
      const found = asFound.at(-1) ?? null;
      const any = asLeft ?? found ?? row.trials.at(-1) ?? null;
      const limit = any ? verdictOf(s, any).limit : null;
      return {
        key: `${quantity} ${firing} ${condition}`,
        name: nameOf(row),
        limit: limit && any ? `${shownLimit(limit)} ${shownUnit(any.reading.unit)}` : "",
        found: judged(found),
        left: judged(asLeft),
      };
    });
}

/** "CO2, high fire", "Static inlet gas pressure". */
function nameOf({ quantity, firing, condition }: PhaseRow): string {
  const { name, spoken } = quantityOf(quantity);
  const what = condition ? capital(`${condition} ${spoken}`) : name;
  return firing ? `${what}, ${firingName(firing).toLowerCase()}` : what;
}
