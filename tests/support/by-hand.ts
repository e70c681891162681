import { type Amending, takeAmendment } from "../../src/answer/turn.ts";
import type { Amendment } from "../../src/visit/by-hand.ts";
import { foldVisit } from "../../src/visit/fold.ts";
import type { VisitState } from "../../src/visit/state.ts";
import type { Visit, VisitHead } from "../../src/visit/visit.ts";
import { spokenLog } from "./spoken-log.ts";
import { parser, talk } from "./talk.ts";
import { time } from "./visits.ts";

/** A correction by hand, of the entry at a place in the visit. */
export type OfPlace = { readonly of: number } & (
  | Omit<Extract<Amendment, { kind: "strike" }>, "id">
  | Omit<Extract<Amendment, { kind: "put-back" }>, "id">
  | Omit<Extract<Amendment, { kind: "confirm" }>, "id">
  | Omit<Extract<Amendment, { kind: "leave-out" }>, "id">
  | Omit<Extract<Amendment, { kind: "mend" }>, "id">
  | Omit<Extract<Amendment, { kind: "pick" }>, "id">
);

export interface ByHand {
  readonly visit: Visit;
  readonly state: VisitState;
  readonly log: string;
  readonly last: Amending | null;
  /** Of the last one: the problem, or "". */
  readonly problem: string;
}

/** Says phrases, a hundred seconds apart, then corrects by hand, from an hour after the start, a minute apart. */
export function byHand(
  phrases: readonly string[],
  amendments: readonly (OfPlace | Amendment)[],
  changes: Partial<VisitHead> = {},
): ByHand {
  let { visit } = talk(phrases, changes);
  let last: Amending | null = null;
  amendments.forEach((given, place) => {
    const amendment = "of" in given ? at(given, visit) : given;
    let ids = 0;
    last = takeAmendment(parser, visit, amendment, time(3600 + 60 * place), () => `h${place}${ids++ || ""}`);
    if (last.ok) visit = last.turn.visit;
  });
  const done = last as Amending | null;
  const problem = done && !done.ok ? done.problem : "";
  return { visit, state: foldVisit(visit), log: spokenLog(visit), last: done, problem };
}

function at({ of, ...amendment }: OfPlace, { entries }: Visit): Amendment {
  const id = entries[of]?.id;
  if (id === undefined) throw new Error(`no entry ${of}`);
  return { ...amendment, id };
}

export const mend = (of: number, text: string): OfPlace => ({ kind: "mend", of, text });
