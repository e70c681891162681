import { importVisit } from "../../record/bundle.ts";
import { logFound } from "../../record/office/log-found.ts";
import { revisionsOf } from "../../record/office/revision.ts";
import type { Visit } from "../../visit/visit.ts";
import { findingOf } from "../examine-log.ts";
import { derivedRows } from "./derive.ts";
import type { Sound } from "./judged.ts";
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
  /** Those that came in and are no revision that the book has: one from before a field was asked for has another text. */
  readonly added: readonly Sound[];
}

/** A revision that the book has. */
export type Kept = Pick<RevisionTable, "digest" | "bundle"> & { readonly stands: boolean };

/** `fresh` are revisions of one visit, at least one, that are not among those `kept`. */
export async function settle(fresh: readonly [Sound, ...Sound[]], kept: readonly Kept[]): Promise<Settled> {
  const [first] = fresh;
  const { visitId } = first;
  if (fresh.length === 1 && kept.length === 0)
    return { visitId, revisions: 1, forked: false, rows: first.rows, added: fresh };
  // What is kept comes first: of two that are the same it stays.
  const digests = new Map([...kept, ...fresh].map(({ digest, bundle }) => [visitOf(bundle), digest]));
  const { standing, superseded, forked } = revisionsOf([...digests.keys()]);
  const different = new Set([standing, ...superseded].map((visit) => digests.get(visit)));
  const digest = digests.get(standing) ?? first.digest;
  const stood = kept.find(({ stands }) => stands)?.digest;
  return {
    visitId,
    revisions: superseded.length + 1,
    forked,
    rows: digest === stood ? null : await rowsOf(standing, digest, fresh),
    added: fresh.filter((sound) => different.has(sound.digest)),
  };
}

/** As they came, or made anew where one stands that was superseded before. */
async function rowsOf(standing: Visit, digest: string, fresh: readonly Sound[]): Promise<SentRows> {
  const as = fresh.find((sound) => sound.digest === digest)?.rows;
  return as ?? sentRows(derivedRows(standing, digest, logFound(await findingOf(standing))));
}

/** A kept revision; throws a `Trouble` where it is none. */
export function visitOf(bundle: string): Visit {
  const read = importVisit(bundle);
  if (!read.ok)
    throw new Trouble("A revision in the book is no sound bundle: somebody changed the book by hand.");
  return read.visit;
}
