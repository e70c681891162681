import { derive } from "./derive.ts";
import { startCore } from "./fold.ts";
import type { VisitState } from "./state.ts";

/** The visit as it stood before place `seq`, with every mend that came since; no question is open. */
export function stateBefore(state: VisitState, seq: number): VisitState {
  const items = state.items.filter((item) => item.seq < seq);
  const unsure = state.unsure.filter((thing) => thing.seq < seq);
  return { ...startCore(state.head), nextSeq: seq, items, unsure, ...derive(items) };
}
