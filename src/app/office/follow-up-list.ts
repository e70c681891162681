import type { DoneMark } from "../../device/office/store.ts";
import { epochMs } from "../../measure/instant.ts";
import { applianceKey } from "../../record/office/drift.ts";
import { byDue, type DueStand, dueStand, type FollowUp } from "../../record/office/follow-ups.ts";
import type { ListedVisit } from "./search.ts";

/** A follow-up with the visit that it comes from, and who has marked it as done. */
export interface ListedFollowUp {
  readonly followUp: FollowUp;
  readonly visit: ListedVisit;
  readonly stand: DueStand;
  readonly done: DoneMark | null;
  /** The last visit to the same appliance that began after this was noted; null where there is none, or it is done. */
  readonly visitedSince: ListedVisit | null;
}

/**
 * The follow-ups of all visits: those that are open first, by when they are due; then those that are done, the last first.
 * A later visit closes none of an earlier one, and is told beside it: only a person says what was done. `today` is YYYY-MM-DD.
 */
export function followUpList(
  visits: readonly ListedVisit[],
  marks: ReadonlyMap<string, DoneMark>,
  today: string,
): readonly ListedFollowUp[] {
  const last = lastVisits(visits);
  return visits
    .flatMap((visit) => {
      const later = last.get(applianceKey(visit.row) ?? "") ?? visit;
      return visit.followUps.map((followUp): ListedFollowUp => {
        const done = marks.get(followUp.key) ?? null;
        const isSince = later !== visit && epochMs(later.row.startedAt) > epochMs(followUp.at);
        const visitedSince = done === null && isSince ? later : null;
        return { followUp, visit, stand: dueStand(followUp, today), done, visitedSince };
      });
    })
    .sort((a, b) => {
      if (a.done && b.done) return a.done.at < b.done.at ? 1 : -1;
      return a.done ? 1 : b.done ? -1 : byDue(a.followUp, b.followUp);
    });
}

/** The visit that began last at each appliance, by its key; a visit without a number is of none. */
function lastVisits(visits: readonly ListedVisit[]): ReadonlyMap<string, ListedVisit> {
  const last = new Map<string, ListedVisit>();
  for (const visit of visits) {
    const key = applianceKey(visit.row);
    if (key === null) continue;
    const known = last.get(key);
    if (!known || epochMs(visit.row.startedAt) > epochMs(known.row.startedAt)) last.set(key, visit);
  }
  return last;
}
