import type { Reply } from "../../answer/turn.ts";
import type { Limit, Verdict } from "../../judge/judgement.ts";
import { limitFor } from "../../judge/limits.ts";
import { type Situation, situationOf } from "../../judge/situation.ts";
import { verdictOf } from "../../judge/verdict.ts";
import { quantityOf } from "../../measure/quantity.ts";
import { shownNumber } from "../../measure/show.ts";
import { ticksOf } from "../../measure/ticks.ts";
import { convert, shownUnit, type Unit } from "../../measure/unit.ts";
import type { StandingReading, VisitState } from "../../visit/state.ts";

/** One reading as it stands on the scale. */
export interface ScalePoint {
  readonly value: number;
  readonly verdict: Verdict["verdict"];
}

/** A drawn scale: where a reading stands against its band, where those before it stood, where the advised turn should land. */
export interface Scale {
  /** "CO2, %". */
  readonly label: string;
  /** All in the unit of the last reading. */
  readonly band: Limit;
  /** Oldest first; the last is the present one. */
  readonly points: readonly [...ScalePoint[], ScalePoint];
  readonly landing: { readonly min: number; readonly max: number } | null;
  readonly from: number;
  readonly to: number;
  /** Where the scale is engraved, with numbers. */
  readonly ticks: readonly number[];
}

/** How many readings are shown beside the present one. */
const EARLIER = 4;
/** Free space at either end, as a share of what is shown. */
const MARGIN = 0.12;

/** The scale of what is being set, else of what was read last in this utterance and has a limit; null where there is none. */
export function scaleOf(
  state: VisitState,
  { judgement: { advice, verdicts } }: Reply,
  now: string,
): Scale | null {
  const s = situationOf(state, [], now);
  if (advice.action === "turn") {
    const turned = lastLike(
      state,
      ({ reading }) => reading.quantity === "co2" && reading.firing === advice.adjuster,
    );
    return turned && scaleAt(s, turned, advice.expect);
  }
  const [first] = verdicts.filter(({ limit }) => limit !== null);
  if (!first) return null;
  const { quantity, firing, value } = first;
  const read = lastLike(
    state,
    ({ reading }) => reading.quantity === quantity && reading.firing === firing && reading.value === value,
  );
  return read && scaleAt(s, read, null);
}

function lastLike(
  { readings }: VisitState,
  isMeant: (r: StandingReading) => boolean,
): StandingReading | null {
  return readings.findLast(isMeant) ?? null;
}

function scaleAt(s: Situation, last: StandingReading, landing: Scale["landing"]): Scale | null {
  const band = limitFor(s, last.reading);
  if (!band) return null;
  const { quantity, unit } = last.reading;
  const present = pointOf(s, last, unit);
  const lasting = [present.value, band.min, band.max, landing?.min, landing?.max].filter(
    (one) => typeof one === "number",
  );
  // A limit upwards alone is seen from nothing.
  if (band.min === null && quantityOf(quantity).min >= 0) lasting.push(0);
  const [low, high] = [Math.min(...lasting), Math.max(...lasting)];
  const span = high - low || Math.max(1, Math.abs(high));
  // What was read long ago and far away would squeeze the band.
  const near = ({ value }: ScalePoint) => value >= low - span / 2 && value <= high + span / 2;
  const earlier = earlierThan(s, last)
    .map((r) => pointOf(s, r, unit))
    .filter(near)
    .slice(-EARLIER);
  const values = [...lasting, ...earlier.map(({ value }) => value)];
  const [least, most] = [Math.min(...values), Math.max(...values)];
  const margin = MARGIN * (most - least || span);
  const from = band.min === null && least === 0 ? 0 : least - margin;
  return {
    label: `${quantityOf(quantity).name}, ${shownUnit(unit)}`,
    band,
    points: [...earlier, present],
    landing,
    from,
    to: most + margin,
    ticks: ticksOf(from, most + margin),
  };
}

function earlierThan({ state }: Situation, last: StandingReading): readonly StandingReading[] {
  const { quantity, firing, condition } = last.reading;
  return state.readings.filter(
    (r) =>
      r.seq < last.seq &&
      r.reading.quantity === quantity &&
      r.reading.firing === firing &&
      r.reading.condition === condition,
  );
}

function pointOf(s: Situation, r: StandingReading, unit: Unit): ScalePoint {
  return { value: convert(r.reading.value, r.reading.unit, unit), verdict: verdictOf(s, r).verdict };
}

/** The scale in words, for those who do not see it. */
export function scaleSaid({ label, band: { min, max }, points, landing }: Scale): string {
  const present = points.at(-1)?.value ?? 0;
  const before = points.slice(0, -1).map(({ value }) => shownNumber(value));
  return [
    `${label}: ${shownNumber(present)}`,
    min !== null && `least ${shownNumber(min)}`,
    max !== null && `most ${shownNumber(max)}`,
    before.length > 0 && `before it ${before.join(", ")}`,
    landing && `the turn should land from ${shownNumber(landing.min)} to ${shownNumber(landing.max)}`,
  ]
    .filter((part) => part !== false && part !== null)
    .join("; ");
}
