import type { Verdict } from "../../judge/judgement.ts";
import type { Condition, Firing, Fuel } from "../../measure/firing.ts";
import type { QuantityId } from "../../measure/quantity.ts";
import type { Unit } from "../../measure/unit.ts";
import type { LogFound } from "../../record/office/log-found.ts";
import type { Outcome } from "../../record/office/row.ts";
import type { Role, TaskAction } from "../../visit/task.ts";

type Judged = Verdict["verdict"];

/** A visit as it stands: `OfficeRow`, flat. Times ISO 8601 in UTC, days YYYY-MM-DD; CO2 in vol-%, CO in ppm, turns clockwise positive. */
export interface VisitTable {
  readonly visit_id: string;
  /** Digest of the revision that stands. */
  readonly revision: string;
  /** How many revisions are kept, the standing one among them. */
  readonly revisions: number;
  /** Whether two of them part. */
  readonly forked: boolean;
  readonly title: string;
  readonly appliance: string;
  /** By what visits are of one appliance; null where it has no number. */
  readonly appliance_key: string | null;
  readonly place: string;
  readonly technician: string;
  readonly licence: string;
  readonly firm: string;
  readonly instrument: string;
  readonly calibrated_on: string | null;
  readonly started_at: string;
  /** The day on which it started, at the place. */
  readonly started_on: string;
  readonly ended_at: string;
  readonly zone: string | null;
  readonly fuel: Fuel;
  readonly sheet: string | null;
  readonly entries: number;
  readonly finished: boolean;
  readonly reviewed_by: string | null;
  readonly outcome: Outcome;
  readonly open: number;
  /** Codes of the dangers that stand at the end. */
  readonly warnings: readonly string[];
  readonly found_high_co2: number | null;
  readonly found_high_co2_verdict: Judged | null;
  readonly found_high_co: number | null;
  readonly found_high_co_verdict: Judged | null;
  readonly found_low_co2: number | null;
  readonly found_low_co2_verdict: Judged | null;
  readonly found_low_co: number | null;
  readonly found_low_co_verdict: Judged | null;
  readonly left_high_co2: number | null;
  readonly left_high_co2_verdict: Judged | null;
  readonly left_high_co: number | null;
  readonly left_high_co_verdict: Judged | null;
  readonly left_low_co2: number | null;
  readonly left_low_co2_verdict: Judged | null;
  readonly left_low_co: number | null;
  readonly left_low_co_verdict: Judged | null;
  readonly turns_high: number;
  readonly turns_low: number;
  /** `JUDGED` of the program that made the rows of the visit. */
  readonly judged: number;
  /** What was found of the log of the revision that stands: whole, signed in part, altered or unsigned. */
  readonly integrity: LogFound["verdict"];
  /** Thumbprint of the one key that signed a whole one (RFC 7638, base64url): see `LogFound`. */
  readonly signed_by: string | null;
}

/** Every revision that came in, as text: nothing is lost, and all other tables can be made from it again. */
export interface RevisionTable {
  readonly visit_id: string;
  /** SHA-256 of `bundle`, in hexadecimal. */
  readonly digest: string;
  readonly entries: number;
  readonly ended_at: string;
  readonly loaded_at: string;
  /** The bundle, in the order of the types, without white space. */
  readonly bundle: string;
}

/** The log of the revision that stands, an entry a row. */
export interface EntryTable {
  readonly visit_id: string;
  readonly seq: number;
  readonly entry_id: string;
  readonly at: string;
  readonly kind: string;
  readonly engine: string;
  readonly said: string;
  readonly confidence: number;
  readonly body: unknown;
}

/** A reading of the revision that stands, with the value that it has after all mends. */
export interface ReadingTable {
  readonly visit_id: string;
  readonly seq: number;
  readonly entry_id: string;
  readonly at: string;
  readonly quantity: QuantityId;
  readonly firing: Firing | null;
  readonly condition: Condition | null;
  readonly value: number;
  readonly unit: Unit;
  /** The same in the first unit of the quantity, so that visits can be compared. */
  readonly canonical_value: number;
  readonly canonical_unit: Unit;
  /** False: struck, or what it is was taken back. Then it has no phase and no verdict. */
  readonly standing: boolean;
  /** Whether its value was mended after it was logged. */
  readonly mended: boolean;
  readonly phase: "as-found" | "trial" | "as-left" | null;
  /** Judged anew, by the limits of the visit's own sheet, in `unit`. */
  readonly verdict: Judged | null;
  readonly limit_min: number | null;
  readonly limit_max: number | null;
  readonly said: string;
  readonly confidence: number;
}

/** A turn of a screw that stands. */
export interface AdjustmentTable {
  readonly visit_id: string;
  readonly seq: number;
  readonly at: string;
  readonly adjuster: Firing;
  readonly turns: number;
  readonly firing: Firing | null;
}

/** Something that a note says, done or to be done. */
export interface FollowUpTable {
  readonly visit_id: string;
  /** Of the note. */
  readonly seq: number;
  /** Place in the note, from 0. */
  readonly place: number;
  readonly note_id: string;
  readonly at: string;
  readonly note: string;
  readonly action: TaskAction;
  readonly thing: string | null;
  readonly due: string | null;
  /** The words that name the time, "before the heating season"; null where none do. */
  readonly due_said: string | null;
  readonly who: Role | null;
  readonly done: boolean;
  readonly told_by: "words" | "reviewer";
}

/** What was read in: its SHA-256, so that it need not be read again, and the digest of the visit that it holds. */
export interface FileTable {
  readonly sha256: string;
  readonly visit_id: string;
  readonly digest: string;
  readonly name: string;
  readonly bytes: number;
  readonly loaded_at: string;
}

/** The office's book. Keys begin with the visit's id, so that a distributed server keeps a visit together. */
export interface Tables {
  readonly visits: VisitTable;
  readonly revisions: RevisionTable;
  readonly entries: EntryTable;
  readonly readings: ReadingTable;
  readonly adjustments: AdjustmentTable;
  readonly follow_ups: FollowUpTable;
  readonly files: FileTable;
}
export type TableName = keyof Tables;

/** What is made from the revision that stands, and made anew when another one does. */
export const DERIVED = ["visits", "entries", "readings", "adjustments", "follow_ups"] as const;
export type DerivedName = (typeof DERIVED)[number];

export type SqlType = "text" | "integer" | "double precision" | "boolean" | "timestamptz" | "date" | "jsonb";
type Columns = { readonly [T in TableName]: { readonly [C in keyof Tables[T]]: SqlType } };

/** The columns by which rows are sent to the server, all of one table and batch at once, with their types. */
export const COLUMNS: Columns = {
  visits: {
    visit_id: "text",
    revision: "text",
    revisions: "integer",
    forked: "boolean",
    title: "text",
    appliance: "text",
    appliance_key: "text",
    place: "text",
    technician: "text",
    licence: "text",
    firm: "text",
    instrument: "text",
    calibrated_on: "date",
    started_at: "timestamptz",
    started_on: "date",
    ended_at: "timestamptz",
    zone: "text",
    fuel: "text",
    sheet: "text",
    entries: "integer",
    finished: "boolean",
    reviewed_by: "text",
    outcome: "text",
    open: "integer",
    warnings: "jsonb",
    found_high_co2: "double precision",
    found_high_co2_verdict: "text",
    found_high_co: "double precision",
    found_high_co_verdict: "text",
    found_low_co2: "double precision",
    found_low_co2_verdict: "text",
    found_low_co: "double precision",
    found_low_co_verdict: "text",
    left_high_co2: "double precision",
    left_high_co2_verdict: "text",
    left_high_co: "double precision",
    left_high_co_verdict: "text",
    left_low_co2: "double precision",
    left_low_co2_verdict: "text",
    left_low_co: "double precision",
    left_low_co_verdict: "text",
    turns_high: "double precision",
    turns_low: "double precision",
    judged: "integer",
    integrity: "text",
    signed_by: "text",
  },
  revisions: {
    visit_id: "text",
    digest: "text",
    entries: "integer",
    ended_at: "timestamptz",
    loaded_at: "timestamptz",
    bundle: "text",
  },
  entries: {
    visit_id: "text",
    seq: "integer",
    entry_id: "text",
    at: "timestamptz",
    kind: "text",
    engine: "text",
    said: "text",
    confidence: "double precision",
    body: "jsonb",
  },
  readings: {
    visit_id: "text",
    seq: "integer",
    entry_id: "text",
    at: "timestamptz",
    quantity: "text",
    firing: "text",
    condition: "text",
    value: "double precision",
    unit: "text",
    canonical_value: "double precision",
    canonical_unit: "text",
    standing: "boolean",
    mended: "boolean",
    phase: "text",
    verdict: "text",
    limit_min: "double precision",
    limit_max: "double precision",
    said: "text",
    confidence: "double precision",
  },
  adjustments: {
    visit_id: "text",
    seq: "integer",
    at: "timestamptz",
    adjuster: "text",
    turns: "double precision",
    firing: "text",
  },
  follow_ups: {
    visit_id: "text",
    seq: "integer",
    place: "integer",
    note_id: "text",
    at: "timestamptz",
    note: "text",
    action: "text",
    thing: "text",
    due: "date",
    due_said: "text",
    who: "text",
    done: "boolean",
    told_by: "text",
  },
  files: {
    sha256: "text",
    visit_id: "text",
    digest: "text",
    name: "text",
    bytes: "integer",
    loaded_at: "timestamptz",
  },
};
