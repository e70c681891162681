import { derive } from "./derive.ts";
import type { VisitState } from "./state.ts";

/** The visit as it stood before place `seq`, with every mend that came since; no question is open. */
export function stateBefore(state: VisitState, seq: number): VisitState {
  const items = state.items.filter((item) => item.seq < seq);
  const unsure = state.unsure.filter((thing) => thing.seq < seq);
  const bare = { nextSeq: seq, items, unsure, questions: [], answered: null, reviewed: null };
  return { head: state.head, ...bare, ...derive(items) };
}
