import { z } from "zod";
import { Fuel } from "../../measure/firing.ts";
import { isoDay } from "../../measure/zone.ts";
import { foldVisit } from "../../visit/fold.ts";
import { ROLES, TASK_ACTIONS } from "../../visit/task.ts";
import type { Visit } from "../../visit/visit.ts";
import { notesOf } from "../notes/notes.ts";
import { inOrder } from "../sheet-file.ts";
import { type FollowUp, followUpsOf } from "./follow-ups.ts";
import { LogFound, NOTHING_FOUND } from "./log-found.ts";
import { relationOf, revisionsOf } from "./revision.ts";
import { type OfficeRow, OUTCOMES, officeRow } from "./row.ts";

/** What the office makes of one export of a visit: its text, what the list needs of it, and where it came from. */
export interface Export {
  /** The bundle as one line of JSON, in the order of the types: equal visits have equal texts. */
  readonly text: string;
  readonly row: OfficeRow;
  readonly log: LogFound;
  readonly followUps: readonly FollowUp[];
  /** The words of all its notes, a line each, cut at `MOST_NOTES`. */
  readonly notes: string;
  /** The name of the file. */
  readonly file: string;
  /** ISO 8601. */
  readonly takenAt: string;
}

/** An export that is kept, with its number among those of its visit, from 1. */
export interface Revision extends Export {
  readonly visitId: string;
  readonly number: number;
}

/** What the list of revisions says of one. */
const RevisionNote = z.strictObject({
  number: z.int(),
  file: z.string(),
  takenAt: z.string(),
  endedAt: z.string(),
  entries: z.int(),
  reviewedBy: z.string().nullable(),
  log: LogFound.shape.verdict,
});
export type RevisionNote = z.infer<typeof RevisionNote>;

const Figure = z
  .strictObject({ value: z.number(), verdict: z.enum(["pass", "fail", "wait", "no-limit"]) })
  .nullable();
const Figures = z.strictObject({ co2: Figure, co: Figure });
const Both = <T extends z.ZodType>(of: T) => z.strictObject({ high: of, low: of });

const Row = z.strictObject({
  id: z.string(),
  title: z.string(),
  appliance: z.string(),
  place: z.string(),
  technician: z.string(),
  licence: z.string(),
  firm: z.string(),
  instrument: z.string(),
  calibratedOn: z.string().nullable(),
  startedAt: z.string(),
  endedAt: z.string(),
  zone: z.string().nullable(),
  fuel: Fuel,
  sheet: z.string().nullable(),
  entries: z.int(),
  finished: z.boolean(),
  reviewedBy: z.string().nullable(),
  outcome: z.enum(OUTCOMES),
  open: z.int(),
  warnings: z.custom<OfficeRow["warnings"]>((value) => Array.isArray(value)),
  found: Both(Figures),
  left: Both(Figures),
  turns: Both(z.number()),
});

const FollowUpRow = z.strictObject({
  key: z.string(),
  visitId: z.string(),
  noteId: z.string(),
  at: z.string(),
  note: z.string(),
  short: z.string(),
  action: z.enum(TASK_ACTIONS),
  thing: z.string().nullable(),
  who: z.enum(ROLES).nullable(),
  due: z.string().nullable(),
  dueWords: z.string().nullable(),
  by: z.enum(["words", "reviewer"]),
});

/**
 * Goes up whenever visits are judged otherwise than before, or more is kept of them: what was judged before that is judged
 * anew from its bundle.
 */
export const JUDGED = 5;

/** A visit as the office's list knows it, without its entries: what stands, and what it superseded. */
export const KeptVisit = z.strictObject({
  judged: z.literal(JUDGED),
  id: z.string(),
  /** The day of the visit at its place, YYYY-MM-DD. */
  day: z.string(),
  row: Row,
  log: LogFound,
  followUps: z.array(FollowUpRow),
  /** The words of its notes, for searching: the first `MOST_NOTES` letters. */
  notes: z.string(),
  /** Whether its log went on in two ways. */
  forked: z.boolean(),
  /** What stands first, then what was superseded, the longest first. */
  revisions: z.array(RevisionNote).min(1),
});
export interface KeptVisit {
  readonly judged: typeof JUDGED;
  readonly id: string;
  readonly day: string;
  readonly row: OfficeRow;
  readonly log: LogFound;
  readonly followUps: readonly FollowUp[];
  readonly notes: string;
  readonly forked: boolean;
  readonly revisions: readonly RevisionNote[];
}

/** A visit, re-judged, as the office keeps it; `log` is what was found of its log, `text` its line. */
export function exportOf(
  visit: Visit,
  log: LogFound,
  file: string,
  takenAt: string,
  text = lineOf(visit),
): Export {
  return {
    text,
    row: officeRow(visit),
    log,
    followUps: followUpsOf(visit),
    notes: notesIn(visit),
    file,
    takenAt,
  };
}

/** So many letters of a visit's notes are searched, UTF-16 units. */
const MOST_NOTES = 2000;

function notesIn(visit: Visit): string {
  return notesOf(foldVisit(visit))
    .map(({ text }) => text)
    .join("\n")
    .slice(0, MOST_NOTES);
}

/** A visit that came through its schema as one line of JSON, with all that its log is checked by: equal visits give equal text. */
export function lineOf({ format, head, entries, integrity }: Visit): string {
  const sheet = head.sheet && inOrder(head.sheet);
  return JSON.stringify({ format, head: { ...head, sheet }, entries, integrity });
}

/**
 * What came of an export: its visit was not known; it was known already; it goes on from what stood; it fell behind it; it
 * and what stood part.
 */
export type TakenAs = "new" | "same" | "newer" | "older" | "forked";

export interface Merged {
  readonly as: TakenAs;
  /** Null where nothing changes. */
  readonly kept: KeptVisit | null;
  readonly added: Revision | null;
}

/**
 * Puts an export beside those that are kept of its visit, whatever order they come in. `visitOf` reads a kept text; where it
 * throws nothing is changed.
 */
export function merge(
  known: readonly Revision[],
  incoming: Export,
  visitOf: (text: string) => Visit,
): Merged {
  if (known.some(({ text }) => text === incoming.text)) return { as: "same", kept: null, added: null };
  const number = known.reduce((most, each) => Math.max(most, each.number), 0) + 1;
  const added: Revision = { ...incoming, visitId: incoming.row.id, number };
  if (known.length === 0) return { as: "new", kept: keptOf([added], false), added };
  const visit = visitOf(incoming.text);
  // One that was kept before a field was asked for has another text.
  if (known.some(({ text }) => relationOf(visit, visitOf(text)) === "same"))
    return { as: "same", kept: null, added: null };
  const before = sortedOut(known, visitOf);
  return {
    as: relationOf(visit, before.standing),
    kept: sortedOut([...known, added], visitOf).kept,
    added,
  };
}

/** A visit judged anew from all that is kept of it. Throws what `visitOf` throws, and RangeError where nothing is kept. */
export function judgedAnew(
  known: readonly Revision[],
  visitOf: (text: string) => Visit,
): { readonly kept: KeptVisit; readonly revisions: readonly Revision[] } {
  const revisions = known.map((each): Revision => {
    const { visitId, number, file, takenAt } = each;
    // What was found of a text stays found, and cannot be worked out in the middle of storing.
    const log = LogFound.safeParse(each.log).data ?? NOTHING_FOUND;
    return { ...exportOf(visitOf(each.text), log, file, takenAt), visitId, number };
  });
  return { kept: sortedOut(revisions, visitOf).kept, revisions };
}

/** What stands of these, and what the list knows of the visit. */
function sortedOut(
  revisions: readonly Revision[],
  visitOf: (text: string) => Visit,
): { readonly standing: Visit; readonly kept: KeptVisit } {
  const byVisit = new Map(revisions.map((each) => [visitOf(each.text), each]));
  const { standing, superseded, forked } = revisionsOf([...byVisit.keys()]);
  const standingFirst = [standing, ...superseded].flatMap((visit) => byVisit.get(visit) ?? []);
  return { standing, kept: keptOf(standingFirst, forked) };
}

/** What the list knows of a visit of which these are kept, what stands first. */
function keptOf(revisions: readonly Revision[], forked: boolean): KeptVisit {
  const [standing] = revisions;
  if (!standing) throw new RangeError("Expected at least one revision, found none.");
  const { row, log, followUps, notes } = standing;
  return {
    judged: JUDGED,
    id: row.id,
    day: isoDay(row.startedAt, row.zone),
    row,
    log,
    followUps,
    notes,
    forked,
    revisions: revisions.map(
      ({ number, file, takenAt, row: { endedAt, entries, reviewedBy }, log: own }) => ({
        number,
        file,
        takenAt,
        endedAt,
        entries,
        reviewedBy,
        log: own.verdict,
      }),
    ),
  };
}
