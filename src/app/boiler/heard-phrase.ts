import type { Stretch } from "../../meaning/parser.ts";
import type { Entry } from "../../visit/entry.ts";
import { foldVisit } from "../../visit/fold.ts";
import type { VisitState } from "../../visit/state.ts";
import type { Visit } from "../../visit/visit.ts";

/** The stretches of a phrase that were understood where the visit stood like `before`. */
export type Understand = (text: string, before: VisitState) => readonly Stretch[];

/** A phrase as it was heard, and what became of it. */
export interface HeardPhrase {
  readonly text: string;
  /** What was understood, in order; empty where nothing was for the log. */
  readonly stretches: readonly Stretch[];
  /** Ids of the entries that it gave, in order; none where it only asked, or was not for the log. */
  readonly entries: readonly string[];
  /** Whether the answer that stands is the one to this: talk that is not for the log leaves the one before. */
  readonly answered: boolean;
}

/** The phrase that gave the last entries of a visit that came of words; null where there are none. */
export function lastHeard(visit: Visit, understand: Understand): HeardPhrase | null {
  const last = visit.entries.findLast(({ phrase }) => phrase !== "");
  if (!last) return null;
  const isOfIt = ({ at, phrase }: Entry) => at === last.at && phrase === last.phrase;
  const from = visit.entries.findIndex(isOfIt);
  const before = foldVisit({ ...visit, entries: visit.entries.slice(0, from) });
  return {
    text: last.phrase,
    stretches: understand(last.phrase, before),
    entries: visit.entries.filter(isOfIt).map(({ id }) => id),
    answered: true,
  };
}

/** A piece of a phrase, and whether it was understood. */
export interface HeardPiece {
  readonly text: string;
  readonly understood: boolean;
}

/** A phrase cut where understanding begins and ends; the pieces together are the phrase. */
export function piecesOf({ text, stretches }: Pick<HeardPhrase, "text" | "stretches">): HeardPiece[] {
  const pieces: HeardPiece[] = [];
  let at = 0;
  for (const { from, to } of stretches) {
    if (from > at) pieces.push({ text: text.slice(at, from), understood: false });
    if (to > Math.max(at, from)) pieces.push({ text: text.slice(Math.max(at, from), to), understood: true });
    at = Math.max(at, to);
  }
  if (at < text.length) pieces.push({ text: text.slice(at), understood: false });
  return pieces;
}
