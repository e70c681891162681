import type { Unsure } from "../meaning/item.ts";
import { NOTHING_TO_REPLACE, NOTHING_TO_STRIKE } from "../visit/enter.ts";
import type { Entry } from "../visit/entry.ts";
import { openQuestion } from "../visit/fold.ts";
import type { VisitState } from "../visit/state.ts";
import { sentence } from "./text.ts";
import { spokenCandidate } from "./things.ts";

/**
 * The one short question about what was not understood: the piece that "yes" would answer, else the last one. An answer
 * brings up the next question that is still open.
 */
export function questionOf(state: VisitState, since: readonly Entry[]): string {
  const pieces = since.flatMap(({ body }) => (body.kind === "unsure" ? [body.unsure] : []));
  const open = since.length > 0 ? openQuestion(state) : null;
  if (open && pieces.length === 0) return ask(open.unsure);
  const piece = pieces.findLast((each) => each.candidates.length > 0) ?? pieces.at(-1);
  return piece ? ask(piece) : "";
}

function ask({ text, reason, candidates: [candidate] }: Unsure): string {
  if (reason === NOTHING_TO_STRIKE) return "Nothing to strike.";
  if (reason === NOTHING_TO_REPLACE) return "No reading to mend.";
  const meant = candidate ? spokenCandidate(candidate) : null;
  return meant === null ? sentence(`say again: ${text}`) : sentence(`${meant}?`);
}
