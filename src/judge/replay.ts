import { after, startState } from "../visit/fold.ts";
import type { VisitState } from "../visit/state.ts";
import { type Utterance, utterancesOf } from "../visit/utterances.ts";
import type { Visit } from "../visit/visit.ts";
import type { Verdict } from "./judgement.ts";
import { situationOf } from "./situation.ts";
import { verdictOf } from "./verdict.ts";

/** One utterance of a visit, and how it was judged then. */
export interface Moment {
  readonly since: Utterance;
  /** The visit with this utterance, and nothing of what came later. */
  readonly state: VisitState;
  /** The verdict on each reading that the utterance brought or mended, by the reading's id. */
  readonly verdicts: ReadonlyMap<string, Verdict>;
}

/** A visit gone through utterance by utterance, each judged as it was then: mends that came later do not count. */
export function* replay(visit: Visit): Generator<Moment> {
  let state = startState(visit.head);
  for (const since of utterancesOf(visit.entries)) {
    state = after(state, since);
    const s = situationOf(state, since, since[0].at);
    yield { since, state, verdicts: new Map(s.fresh.map((r) => [r.id, verdictOf(s, r)])) };
  }
}
