import type { Verdict } from "../judge/judgement.ts";
import { situationOf } from "../judge/situation.ts";
import { verdictOf } from "../judge/verdict.ts";
import { QUIET } from "../judge/warnings/room.ts";
import { capital } from "../measure/capital.ts";
import { type QuantityId, quantityOf } from "../measure/quantity.ts";
import { shownValue } from "../measure/show.ts";
import { shownUnit } from "../measure/unit.ts";
import type { Reading } from "../visit/entry.ts";
import { isMovedByScrews, phasesOf } from "../visit/phase.ts";
import type { PhaseRow, StandingReading, VisitState } from "../visit/state.ts";
import { clockTime, firingName, shownLimit } from "./wording.ts";

/** A value in the comparison, with its verdict where there is one. */
export interface PhaseValue {
  readonly value: string;
  readonly verdict: Verdict["verdict"] | null;
  /** What has to be said with it: "before the last turn", "250 ppm out of limits before it"; "" where nothing has. */
  readonly note: string;
  /** What nobody said and was assumed: "firing", "unit", "static or dynamic". */
  readonly assumed: readonly string[];
  /** What it was before it was mended, as shown; null where it never was. */
  readonly was: string | null;
}

/** As found beside as left, of one quantity at one firing. */
export interface PhaseLine {
  readonly key: string;
  readonly quantity: QuantityId;
  /** "CO2, high fire". */
  readonly name: string;
  /** "8.5 to 9.5 %"; "" where no limit is known. */
  readonly limit: string;
  /** As it was found; null where a screw was turned before it was read. */
  readonly found: PhaseValue | null;
  readonly left: PhaseValue | null;
}

/** No sheet limits it: the app's own warnings begin there. */
export const ROOM_CO = `warned from ${QUIET} ppm`;

/** Said where nothing was found: what is read after a turn is not as found. */
export const NOT_FOUND = "not read before the first turn";

/** The order in which they are told: what the maker limits first. */
const FIRST: readonly QuantityId[] = ["gas-pressure-inlet", "co2", "co", "o2"];

/** As found and as left, side by side, judged by the limits as they stand. `now` is ISO 8601. */
export function phaseLines(state: VisitState, now: string): PhaseLine[] {
  const s = situationOf(state, [], now);
  const rank = ({ quantity }: PhaseRow) =>
    FIRST.includes(quantity) ? FIRST.indexOf(quantity) : FIRST.length;
  const lastTurn = state.adjustments.at(-1)?.seq ?? -1;
  const judged = (r: StandingReading | null, note = ""): PhaseValue | null => {
    if (!r) return null;
    const { verdict } = verdictOf(s, r);
    return {
      value: shownValue(r.reading.value, r.reading.unit),
      verdict: verdict === "no-limit" ? null : verdict,
      note,
      assumed: assumedIn(r.reading),
      was: wasBefore(r),
    };
  };
  return phasesOf(state)
    .map((row, place) => ({ row, place }))
    .sort((a, b) => rank(a.row) - rank(b.row) || a.place - b.place)
    .map(({ row }) => {
      const { quantity, firing, condition, asFound, trials, asLeft } = row;
      // A reading that a turn came after is not as left, but all that is known of it.
      const before = [...(asFound ? [asFound] : []), ...trials]
        .filter(({ seq }) => seq < lastTurn)
        .reduce<StandingReading | null>((last, r) => (last && last.seq > r.seq ? last : r), null);
      const any = asLeft ?? asFound ?? trials.at(-1) ?? null;
      const failed = trials.filter((r) => verdictOf(s, r).verdict === "fail");
      const foundAt = asFound?.seq ?? -1;
      const earlier = outSaid(
        failed.filter(({ seq }) => seq < foundAt),
        "before it",
      );
      const between = betweenSaid(row, failed, state.head.zone);
      const limit = any ? verdictOf(s, any).limit : null;
      return {
        key: `${quantity} ${firing} ${condition}`,
        quantity,
        name: nameOf(row),
        limit:
          quantity === "co-ambient"
            ? ROOM_CO
            : limit && any
              ? `${shownLimit(limit)} ${shownUnit(any.reading.unit)}`
              : "",
        found: judged(asFound, asLeft ? earlier : between || earlier),
        left: judged(asLeft, between) ?? judged(before, "before the last turn"),
      };
    });
}

/** What no screw moves was found first and left last: what was worse in between has to be told. */
function betweenSaid(
  { quantity, asFound, trials, asLeft }: PhaseRow,
  failed: readonly StandingReading[],
  zone: string | null,
): string {
  if (isMovedByScrews(quantity)) return "";
  if (quantity !== "co-ambient") return outSaid(failed, "in between");
  const ends = [asFound, asLeft].filter((r) => r !== null);
  return highestSaid(trials, Math.max(...ends.map(({ reading }) => reading.value)), zone);
}

/** "260 ppm out of limits before it": what failed and was read again does not vanish. */
function outSaid(failed: readonly StandingReading[], where: string): string {
  if (failed.length === 0) return "";
  const values = [...new Set(failed.map(({ reading }) => shownValue(reading.value, reading.unit)))];
  const shown = values.slice(-MOST_VALUES);
  return `${values.length > shown.length ? "also " : ""}${shown.join(", ")} out of limits ${where}`;
}

const MOST_VALUES = 4;

/** "highest 80 ppm at 10:08:20"; "" where none was higher than that. */
function highestSaid(readings: readonly StandingReading[], than: number, zone: string | null): string {
  const [highest] = readings
    .filter(({ reading }) => reading.value > than)
    .sort((a, b) => b.reading.value - a.reading.value || a.seq - b.seq);
  if (!highest) return "";
  const { value, unit } = highest.reading;
  return `highest ${shownValue(value, unit)} at ${clockTime(highest.at, zone)}`;
}

/** "CO2, high fire", "Static inlet gas pressure". */
function nameOf({ quantity, firing, condition }: PhaseRow): string {
  const { name, spoken } = quantityOf(quantity);
  const what = condition ? capital(`${condition} ${spoken}`) : name;
  return firing ? `${what}, ${firingName(firing).toLowerCase()}` : what;
}

/** What of a reading nobody said. A unit is said with its quantity where there is only one. */
function assumedIn({ quantity, firing, condition, origin }: Reading): string[] {
  return [
    ...(origin.value === "assumed" ? ["value"] : []),
    ...(origin.unit === "assumed" && quantityOf(quantity).units.length > 1 ? ["unit"] : []),
    ...(origin.firing === "assumed" && firing !== null ? ["firing"] : []),
    ...(origin.condition === "assumed" && condition !== null ? ["static or dynamic"] : []),
  ];
}

/** The value before the last mend that changed it. */
function wasBefore({ reading, history }: StandingReading): string | null {
  const before = history.findLast(({ value, unit }) => value !== reading.value || unit !== reading.unit);
  return before ? shownValue(before.value, before.unit) : null;
}
