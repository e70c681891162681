import { importVisit } from "../../record/bundle.ts";
import { revisionsOf } from "../../record/office/revision.ts";
import type { Visit } from "../../visit/visit.ts";
import { derivedRows } from "./derive.ts";
import { bundleText, digestOf, type Sound } from "./judged.ts";
import { type SentRows, sentRows } from "./sent.ts";
import type { RevisionTable } from "./tables.ts";
import { Trouble } from "./trouble.ts";

/** What stands of a visit once some more of its revisions have come in. */
export interface Settled {
  readonly visitId: string;
  readonly revisions: number;
  readonly forked: boolean;
  /** What is to be written in place of what is there; null where what stood before stands on. */
  readonly rows: SentRows | null;
}

/** A revision that the book has. */
export type Kept = Pick<RevisionTable, "digest" | "bundle"> & { readonly stands: boolean };

/** `fresh` are revisions of one visit, at least one, that are not among those `kept`. */
export function settle(fresh: readonly [Sound, ...Sound[]], kept: readonly Kept[]): Settled {
  const [first] = fresh;
  const { visitId } = first;
  if (fresh.length === 1 && kept.length === 0)
    return { visitId, revisions: 1, forked: false, rows: first.rows };
  const visits = [...fresh, ...kept].map(({ bundle }) => visitOf(bundle));
  const { standing, superseded, forked } = revisionsOf(visits);
  const digest = digestOf(bundleText(standing));
  const stood = kept.find(({ stands }) => stands)?.digest;
  return {
    visitId,
    revisions: superseded.length + 1,
    forked,
    rows: digest === stood ? null : rowsOf(standing, digest, fresh),
  };
}

/** As they came, or made anew where one stands that was superseded before. */
function rowsOf(standing: Visit, digest: string, fresh: readonly Sound[]): SentRows {
  return fresh.find((sound) => sound.digest === digest)?.rows ?? sentRows(derivedRows(standing, digest));
}

function visitOf(bundle: string): Visit {
  const read = importVisit(bundle);
  if (!read.ok)
    throw new Trouble("A revision in the book is no sound bundle: somebody changed the book by hand.");
  return read.visit;
}
