import { WARNING_CODES } from "../../judge/judgement.ts";
import type { Firing } from "../../measure/firing.ts";
import { epochMs, isoTime } from "../../measure/instant.ts";
import type { Figure, FlueFigures, OfficeRow } from "../../record/office/row.ts";
import type { VisitTable } from "./tables.ts";

type Flat = Omit<
  VisitTable,
  "revision" | "revisions" | "forked" | "appliance_key" | "started_on" | "judged" | "integrity" | "signed_by"
>;

/** The office's row of a visit as columns. */
export function flatRow(row: OfficeRow): Flat {
  const { found, left } = row;
  const value = (figure: Figure | null) => figure?.value ?? null;
  const verdict = (figure: Figure | null) => figure?.verdict ?? null;
  return {
    visit_id: row.id,
    title: row.title,
    appliance: row.appliance,
    place: row.place,
    technician: row.technician,
    licence: row.licence,
    firm: row.firm,
    instrument: row.instrument,
    calibrated_on: row.calibratedOn,
    started_at: isoTime(epochMs(row.startedAt)),
    ended_at: isoTime(epochMs(row.endedAt)),
    zone: row.zone,
    fuel: row.fuel,
    sheet: row.sheet,
    entries: row.entries,
    finished: row.finished,
    reviewed_by: row.reviewedBy,
    outcome: row.outcome,
    open: row.open,
    warnings: row.warnings,
    found_high_co2: value(found.high.co2),
    found_high_co2_verdict: verdict(found.high.co2),
    found_high_co: value(found.high.co),
    found_high_co_verdict: verdict(found.high.co),
    found_low_co2: value(found.low.co2),
    found_low_co2_verdict: verdict(found.low.co2),
    found_low_co: value(found.low.co),
    found_low_co_verdict: verdict(found.low.co),
    left_high_co2: value(left.high.co2),
    left_high_co2_verdict: verdict(left.high.co2),
    left_high_co: value(left.high.co),
    left_high_co_verdict: verdict(left.high.co),
    left_low_co2: value(left.low.co2),
    left_low_co2_verdict: verdict(left.low.co2),
    left_low_co: value(left.low.co),
    left_low_co_verdict: verdict(left.low.co),
    turns_high: row.turns.high,
    turns_low: row.turns.low,
  };
}

/** The columns of a visit as the office's row; what `flatRow` made is made whole again. */
export function officeRowOf(row: VisitTable): OfficeRow {
  const figures = (when: "found" | "left"): OfficeRow["left"] => {
    const of = (firing: Firing): FlueFigures => ({
      co2: figure(row[`${when}_${firing}_co2`], row[`${when}_${firing}_co2_verdict`]),
      co: figure(row[`${when}_${firing}_co`], row[`${when}_${firing}_co_verdict`]),
    });
    return { high: of("high"), low: of("low") };
  };
  return {
    id: row.visit_id,
    title: row.title,
    appliance: row.appliance,
    place: row.place,
    technician: row.technician,
    licence: row.licence,
    firm: row.firm,
    instrument: row.instrument,
    calibratedOn: row.calibrated_on,
    startedAt: row.started_at,
    endedAt: row.ended_at,
    zone: row.zone,
    fuel: row.fuel,
    sheet: row.sheet,
    entries: row.entries,
    finished: row.finished,
    reviewedBy: row.reviewed_by,
    outcome: row.outcome,
    open: row.open,
    warnings: row.warnings.flatMap((code) => WARNING_CODES.filter((known) => known === code)),
    found: figures("found"),
    left: figures("left"),
    turns: { high: row.turns_high, low: row.turns_low },
  };
}

function figure(value: number | null, verdict: Figure["verdict"] | null): Figure | null {
  return value === null || verdict === null ? null : { value, verdict };
}
