import { atEnd, openCount } from "../../record/open.ts";
import { foldVisit } from "../../visit/fold.ts";
import type { Visit } from "../../visit/visit.ts";

/** What a list of visits says of one. */
export interface VisitSummary {
  readonly finished: boolean;
  /** Readings that stand. */
  readonly readings: number;
  /** Things open, as its record counts them. */
  readonly open: number;
  /** Who found it right as it stands; null where nobody has yet. */
  readonly reviewedBy: string | null;
  /** The appliance's serial or plant number; "" where it was not given. */
  readonly appliance: string;
}

/** A visit in a few numbers. `now` is ISO 8601. */
export function summaryOf(visit: Visit, now: string): VisitSummary {
  const state = foldVisit(visit);
  return {
    finished: state.finished,
    readings: state.readings.length,
    open: openCount(atEnd(state, now)),
    reviewedBy: state.reviewed?.by ?? null,
    appliance: state.details.appliance,
  };
}
