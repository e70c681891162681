import { type Kysely, sql } from "kysely";
import { applianceKey, type History, historyOf } from "../../record/office/drift.ts";
import type { LogFound } from "../../record/office/log-found.ts";
import type { OfficeRow } from "../../record/office/row.ts";
import type { FollowUpTable, Tables, VisitTable } from "./tables.ts";
import { officeRowOf } from "./visit-row.ts";

/** Rows that are asked for at a time: an answer may be longer than memory. */
const PAGE = 1000;

/** A visit as it stands, and what is kept of it beside. */
export interface ListedVisit extends OfficeRow {
  /** Revisions that are kept, the standing one among them; forked: two of them part. */
  readonly revisions: number;
  readonly forked: boolean;
  /** Of the log of what stands, and the thumbprint of the key that signed it. */
  readonly integrity: LogFound["verdict"];
  readonly signedBy: string | null;
}

/** Visits as they stand that started on a day (YYYY-MM-DD, at their place) or later; all where it is null. Oldest first. */
export async function* visitsSince(db: Kysely<Tables>, since: string | null): AsyncGenerator<ListedVisit> {
  let last: VisitTable | undefined;
  for (;;) {
    const rows: VisitTable[] = await db
      .selectFrom("visits")
      .selectAll()
      .$if(since !== null, (query) => query.where("started_on", ">=", since ?? ""))
      .$if(last !== undefined, (query) =>
        query.where(
          sql<boolean>`(started_on, visit_id) > (${last?.started_on}::date, ${last?.visit_id}::text)`,
        ),
      )
      .orderBy("started_on")
      .orderBy("visit_id")
      .limit(PAGE)
      .execute();
    for (const row of rows) {
      const { revisions, forked, integrity, signed_by: signedBy } = row;
      yield { ...officeRowOf(row), revisions, forked, integrity, signedBy };
    }
    last = rows.at(-1);
    if (rows.length < PAGE) return;
  }
}

/** Something that is still to be done, and where. */
export interface OpenFollowUp {
  readonly visitId: string;
  readonly appliance: string;
  readonly place: string;
  readonly title: string;
  /** When it was said, ISO 8601, and in what words. */
  readonly at: string;
  readonly note: string;
  readonly action: FollowUpTable["action"];
  readonly thing: string | null;
  /** YYYY-MM-DD; null where no day was named. */
  readonly due: string | null;
  readonly dueSaid: string | null;
  readonly who: FollowUpTable["who"];
  readonly by: FollowUpTable["told_by"];
  /** Day of the last visit to the same appliance that began after it was noted; null where there is none. Closes nothing. */
  readonly visitedSince: string | null;
}

/** What is not done, by the day it is due; without a day last, and not where it has to be due by a day (YYYY-MM-DD). */
export async function* followUpsUntil(
  db: Kysely<Tables>,
  until: string | null,
): AsyncGenerator<OpenFollowUp> {
  for (let offset = 0; ; offset += PAGE) {
    const rows = await db
      .selectFrom("follow_ups")
      .innerJoin("visits", "visits.visit_id", "follow_ups.visit_id")
      .select([
        "follow_ups.visit_id as visitId",
        "visits.appliance",
        "visits.place",
        "visits.title",
        "follow_ups.at",
        "note",
        "action",
        "thing",
        "due",
        "due_said as dueSaid",
        "who",
        "told_by as by",
      ])
      .select((of) =>
        of
          .selectFrom("visits as later")
          .select("later.started_on")
          .whereRef("later.appliance_key", "=", "visits.appliance_key")
          .whereRef("later.started_at", ">", "follow_ups.at")
          .whereRef("later.visit_id", "<>", "follow_ups.visit_id")
          .orderBy("later.started_at", "desc")
          .limit(1)
          .as("visitedSince"),
      )
      .where("done", "=", false)
      .$if(until !== null, (query) => query.where("due", "<=", until ?? ""))
      .orderBy("due", (order) => order.asc().nullsLast())
      .orderBy("follow_ups.visit_id")
      .orderBy("follow_ups.seq")
      .orderBy("follow_ups.place")
      .limit(PAGE)
      .offset(offset)
      .execute();
    yield* rows;
    if (rows.length < PAGE) return;
  }
}

/** The history of an appliance, by its number however it is spaced and capitalised; null where no visit is of it. */
export async function driftOf(db: Kysely<Tables>, appliance: string): Promise<History | null> {
  const key = applianceKey({ appliance });
  if (key === null) return null;
  const rows = await db
    .selectFrom("visits")
    .selectAll()
    .where("appliance_key", "=", key)
    .orderBy("started_at")
    .orderBy("visit_id")
    .execute();
  return rows.length === 0 ? null : historyOf(rows.map(officeRowOf));
}
