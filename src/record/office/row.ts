import type { Verdict, Warning } from "../../judge/judgement.ts";
import type { Situation } from "../../judge/situation.ts";
import { verdictOf } from "../../judge/verdict.ts";
import { leftUnproved } from "../../judge/warnings/left-open.ts";
import type { Firing, Fuel } from "../../measure/firing.ts";
import { foldVisit } from "../../visit/fold.ts";
import { phasesOf } from "../../visit/phase.ts";
import type { PhaseRow, StandingReading, VisitState } from "../../visit/state.ts";
import type { Visit } from "../../visit/visit.ts";
import { atEnd, openCount, standingIn } from "../open.ts";
import { endedAt } from "./revision.ts";

/** A reading with its verdict, judged by the limits of the visit's own sheet. CO2 in vol-%, CO in ppm. */
export interface Figure {
  readonly value: number;
  readonly verdict: Verdict["verdict"];
}

/** CO2 and CO of one firing; null where nothing was read. */
export interface FlueFigures {
  readonly co2: Figure | null;
  readonly co: Figure | null;
}

/**
 * How a visit was left, judged anew: all that the sheet asks for proved, a reading left out of its limits, something not
 * proved, or no limits to judge by.
 */
export const OUTCOMES = ["proved", "out-of-limits", "not-proved", "not-judged"] as const;
export type Outcome = (typeof OUTCOMES)[number];

/** What the office's list knows of a visit as it stands. Plain data, made from the bundle alone. */
export interface OfficeRow {
  readonly id: string;
  readonly title: string;
  /** Serial or plant number as typed; "" where none was. */
  readonly appliance: string;
  readonly place: string;
  readonly technician: string;
  /** Number of his licence or registration. */
  readonly licence: string;
  readonly firm: string;
  /** The analyser with its serial number; "" where it was not given. */
  readonly instrument: string;
  /** YYYY-MM-DD; null where not given. */
  readonly calibratedOn: string | null;
  /** ISO 8601. */
  readonly startedAt: string;
  readonly endedAt: string;
  readonly zone: string | null;
  readonly fuel: Fuel;
  readonly sheet: string | null;
  readonly entries: number;
  readonly finished: boolean;
  readonly reviewedBy: string | null;
  readonly outcome: Outcome;
  /** Things open, as the record counts them: dangers that stand, what was not understood, not proved, not closed. */
  readonly open: number;
  /** Codes of the dangers that stand at the end. */
  readonly warnings: readonly Warning["code"][];
  readonly found: Readonly<Record<Firing, FlueFigures>>;
  readonly left: Readonly<Record<Firing, FlueFigures>>;
  /** Signed sum of the turns of each screw in this visit, clockwise positive. */
  readonly turns: Readonly<Record<Firing, number>>;
}

/** A visit in one row, re-judged as of its last entry. Pure, never throws. */
export function officeRow(visit: Visit): OfficeRow {
  const { head, entries } = visit;
  const state = foldVisit(visit);
  const s = atEnd(state, endedAt(visit));
  const standing = standingIn(s);
  const { details } = state;
  const phases = phasesOf(state);
  const left = figures(s, phases, ({ asLeft }) => asLeft);
  return {
    id: head.id,
    title: head.title,
    appliance: details.appliance.trim(),
    place: details.place,
    technician: details.technician,
    licence: details.licence,
    firm: details.firm,
    instrument: [details.instrument?.name, details.instrument?.serial].filter(Boolean).join(", "),
    calibratedOn: details.instrument?.calibratedOn ?? null,
    startedAt: head.startedAt,
    endedAt: endedAt(visit),
    zone: head.zone,
    fuel: head.fuel,
    sheet: head.sheet?.title ?? null,
    entries: entries.length,
    finished: state.finished,
    reviewedBy: state.reviewed?.by ?? null,
    outcome: outcomeOf(s, left),
    open: openCount(s, standing),
    warnings: [...new Set(standing.map(({ code }) => code))],
    found: figures(s, phases, ({ asFound }) => asFound),
    left,
    turns: { high: turnsOf(state, "high"), low: turnsOf(state, "low") },
  };
}

type Choose = (row: PhaseRow) => StandingReading | null;

function figures(s: Situation, phases: readonly PhaseRow[], choose: Choose): OfficeRow["left"] {
  const figure = (quantity: "co2" | "co", firing: Firing): Figure | null => {
    const row = phases.find((each) => each.quantity === quantity && each.firing === firing);
    const reading = row && choose(row);
    return reading ? { value: reading.reading.value, verdict: verdictOf(s, reading).verdict } : null;
  };
  const of = (firing: Firing): FlueFigures => ({ co2: figure("co2", firing), co: figure("co", firing) });
  return { high: of("high"), low: of("low") };
}

function outcomeOf(s: Situation, { high, low }: OfficeRow["left"]): Outcome {
  if (s.limits === null) return "not-judged";
  if ([high.co2, high.co, low.co2, low.co].some((figure) => figure?.verdict === "fail"))
    return "out-of-limits";
  return leftUnproved(s) === null ? "proved" : "not-proved";
}

/** Rounded to 1/1000 turn: tenths do not add up exactly. */
function turnsOf({ adjustments }: VisitState, adjuster: Firing): number {
  const sum = adjustments.reduce((all, each) => all + (each.adjuster === adjuster ? each.turns : 0), 0);
  return Math.round(sum * 1000) / 1000;
}
