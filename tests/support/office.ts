import { type Details, NO_DETAILS } from "../../src/visit/details.ts";
import type { EntryBody } from "../../src/visit/entry.ts";
import { foldVisit, withEntries } from "../../src/visit/fold.ts";
import type { Visit, VisitHead } from "../../src/visit/visit.ts";
import { play, type Said } from "./visits.ts";

/** A visit with one more entry, typed, `seconds` after its last. */
export function andThen(visit: Visit, body: EntryBody, seconds = 60): Visit {
  const { nextSeq } = foldVisit(visit);
  const at = new Date(
    Date.parse(visit.entries.at(-1)?.at ?? visit.head.startedAt) + seconds * 1000,
  ).toISOString();
  const typed = { engine: "typed", phrase: "", said: "", confidence: 1 } as const;
  return withEntries(visit, [{ id: `${visit.head.id} ${nextSeq} ${at}`, seq: nextSeq, at, ...typed, body }]);
}

/** A visit of a script, with details typed in at its end. */
export function officeVisit(
  id: string,
  script: readonly Said[],
  details: Partial<Details> = {},
  changes: Partial<VisitHead> = {},
): Visit {
  const { visit } = play(script, { id, ...changes });
  return andThen(visit, { kind: "details", details: { ...NO_DETAILS, ...details } });
}

/** The first so many entries of a visit: what was exported before it went on. */
export function upTo(visit: Visit, entries: number): Visit {
  return { ...visit, entries: visit.entries.slice(0, entries) };
}
