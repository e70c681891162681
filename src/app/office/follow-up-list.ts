import type { DoneMark } from "../../device/office/store.ts";
import { byDue, type DueStand, dueStand, type FollowUp } from "../../record/office/follow-ups.ts";
import type { ListedVisit } from "./search.ts";

/** A follow-up with the visit that it comes from, and who has marked it as done. */
export interface ListedFollowUp {
  readonly followUp: FollowUp;
  readonly visit: ListedVisit;
  readonly stand: DueStand;
  readonly done: DoneMark | null;
}

/**
 * The follow-ups of all visits: those that are open first, by when they are due; then those that are done, the last first.
 * A later visit closes none of an earlier one: only a person says what was done. `today` is YYYY-MM-DD.
 */
export function followUpList(
  visits: readonly ListedVisit[],
  marks: ReadonlyMap<string, DoneMark>,
  today: string,
): readonly ListedFollowUp[] {
  return visits
    .flatMap((visit) =>
      visit.followUps.map((followUp): ListedFollowUp => {
        const done = marks.get(followUp.key) ?? null;
        return { followUp, visit, stand: dueStand(followUp, today), done };
      }),
    )
    .sort((a, b) => {
      if (a.done && b.done) return a.done.at < b.done.at ? 1 : -1;
      return a.done ? 1 : b.done ? -1 : byDue(a.followUp, b.followUp);
    });
}
