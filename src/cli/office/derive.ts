import { type Situation, situationOf } from "../../judge/situation.ts";
import { verdictOf } from "../../judge/verdict.ts";
import { epochMs, isoTime } from "../../measure/instant.ts";
import { quantityOf } from "../../measure/quantity.ts";
import { convert } from "../../measure/unit.ts";
import { isoDay } from "../../measure/zone.ts";
import { notesOf } from "../../record/notes/notes.ts";
import { applianceKey } from "../../record/office/drift.ts";
import { JUDGED } from "../../record/office/kept.ts";
import type { LogFound } from "../../record/office/log-found.ts";
import { endedAt } from "../../record/office/revision.ts";
import { officeRow } from "../../record/office/row.ts";
import type { Reading } from "../../visit/entry.ts";
import { foldVisit } from "../../visit/fold.ts";
import { phasesOf } from "../../visit/phase.ts";
import type { LoggedItem, StandingReading, VisitState } from "../../visit/state.ts";
import type { Visit } from "../../visit/visit.ts";
import type {
  AdjustmentTable,
  DerivedName,
  EntryTable,
  FollowUpTable,
  ReadingTable,
  Tables,
} from "./tables.ts";
import { flatRow } from "./visit-row.ts";

/** The rows that a visit makes in each table that is made from what stands. */
export type DerivedRows = { readonly [T in DerivedName]: readonly Tables[T][] };

/** The rows of a visit, `digest` being that of its revision, re-judged as of its last entry, and what was found of its log. Pure. */
export function derivedRows(visit: Visit, digest: string, log: LogFound): DerivedRows {
  const state = foldVisit(visit);
  const row = officeRow(visit);
  return {
    visits: [
      {
        ...flatRow(row),
        revision: digest,
        revisions: 1,
        forked: false,
        appliance_key: applianceKey(row),
        started_on: isoDay(row.startedAt, row.zone),
        judged: JUDGED,
        integrity: log.verdict,
        signed_by: log.key,
      },
    ],
    entries: entryRows(visit),
    readings: readingRows(state, endedAt(visit)),
    adjustments: adjustmentRows(state),
    follow_ups: followUpRows(state),
  };
}

function entryRows({ head, entries }: Visit): EntryTable[] {
  return entries.map(({ id, seq, at, engine, said, confidence, body }) => ({
    visit_id: head.id,
    seq,
    entry_id: id,
    at: utc(at),
    kind: body.kind,
    engine,
    said,
    confidence,
    body,
  }));
}

function readingRows(state: VisitState, now: string): ReadingTable[] {
  const s = situationOf(state, [], now);
  const phases = phaseById(state);
  const standing = new Map(state.readings.map((r) => [r.id, r]));
  return state.items.flatMap((item) =>
    item.body.kind === "reading"
      ? [readingRow(s, item, item.body, standing.get(item.id) ?? null, phases.get(item.id) ?? null)]
      : [],
  );
}

/** Field by field: to spread the half of a row into it takes longer than all else here. */
function readingRow(
  s: Situation,
  { id, seq, at, said, confidence, history }: LoggedItem,
  { quantity, firing, condition, value, unit }: Reading,
  standing: StandingReading | null,
  phase: ReadingTable["phase"],
): ReadingTable {
  const [canonical_unit] = quantityOf(quantity).units;
  const judged = standing && verdictOf(s, standing);
  return {
    visit_id: s.state.head.id,
    seq,
    entry_id: id,
    at: utc(at),
    quantity,
    firing,
    condition,
    value,
    unit,
    canonical_value: convert(value, unit, canonical_unit),
    canonical_unit,
    standing: standing !== null,
    mended: history.length > 0,
    phase: standing && phase,
    verdict: judged?.verdict ?? null,
    limit_min: judged?.limit?.min ?? null,
    limit_max: judged?.limit?.max ?? null,
    said,
    confidence,
  };
}

/** What was read once, and nothing turned, was found and left so: it counts as left. */
function phaseById(state: VisitState): Map<string, ReadingTable["phase"]> {
  const phases = new Map<string, ReadingTable["phase"]>();
  for (const { asFound, trials, asLeft } of phasesOf(state)) {
    for (const { id } of trials) phases.set(id, "trial");
    if (asFound) phases.set(asFound.id, "as-found");
    if (asLeft) phases.set(asLeft.id, "as-left");
  }
  return phases;
}

function adjustmentRows({ head, adjustments }: VisitState): AdjustmentTable[] {
  return adjustments.map(({ seq, at, adjuster, turns, firing }) => ({
    visit_id: head.id,
    seq,
    at: utc(at),
    adjuster,
    turns,
    firing,
  }));
}

function followUpRows(state: VisitState): FollowUpTable[] {
  return notesOf(state).flatMap(({ id, seq, at, text, tasks, by }) =>
    tasks.map(({ action, thing, due, who, done }, place) => ({
      visit_id: state.head.id,
      seq,
      place,
      note_id: id,
      at: utc(at),
      note: text,
      action: action.value,
      thing: thing?.value ?? null,
      due: due?.value ?? null,
      due_said: due?.span ? text.slice(due.span.from, due.span.to) : null,
      who: who?.value ?? null,
      done,
      told_by: by,
    })),
  );
}

/** A time as written with any offset, in UTC. */
function utc(at: string): string {
  return at.endsWith("Z") ? at : isoTime(epochMs(at));
}
