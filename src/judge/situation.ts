import type { Entry } from "../visit/entry.ts";
import type { FuelLimits, Sheet } from "../visit/sheet.ts";
import type { StandingAdjustment, StandingReading, VisitState } from "../visit/state.ts";

/** What every rule looks at: the visit, what the last utterance brought, and the time. */
export interface Situation {
  readonly state: VisitState;
  /** ISO 8601. */
  readonly now: string;
  readonly sheet: Sheet | null;
  /** The sheet's limits for the visit's gas, null where there are none. */
  readonly limits: FuelLimits | null;
  /** Standing readings that the last utterance brought or mended, in spoken order. */
  readonly fresh: readonly StandingReading[];
  /** Standing adjustments that the last utterance brought. */
  readonly touched: readonly StandingAdjustment[];
  /** Whether the last utterance declared the visit finished, or took back or mended what was logged before that. */
  readonly finishing: boolean;
}

export function situationOf(state: VisitState, since: readonly Entry[], now: string): Situation {
  const { sheet, fuel } = state.head;
  const ids = new Set(
    since.map(({ id, body }) =>
      body.kind === "reading" || body.kind === "adjustment" ? id : body.kind === "replace" ? body.target : "",
    ),
  );
  return {
    state,
    now,
    sheet,
    limits: sheet?.fuels[fuel] ?? null,
    fresh: state.readings.filter((r) => ids.has(r.id)),
    touched: state.adjustments.filter((a) => ids.has(a.id)),
    finishing: state.finished && since.some(endsWork),
  };
}

function endsWork({ body }: Entry): boolean {
  return (
    body.kind === "strike" || body.kind === "replace" || (body.kind === "mark" && body.mark === "finished")
  );
}
