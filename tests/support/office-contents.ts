import type { Book } from "../../src/cli/office/book.ts";
import { DERIVED, type DerivedName } from "../../src/cli/office/tables.ts";

/** What is in a book that hangs on nothing but the bundles: rows as text, sorted. */
export interface Contents {
  readonly visits: readonly string[];
  readonly rows: Readonly<Record<string, readonly string[]>>;
}

/** What is in a book of visits that have so many entries each. Throws where that is half of anything. */
export async function contentsOf({ db }: Book, entriesEach: number): Promise<Contents> {
  const rows: { [table in DerivedName | "revisions"]?: string[] } = {};
  for (const table of DERIVED) rows[table] = sorted(await db.selectFrom(table).selectAll().execute());
  const revisions = await db.selectFrom("revisions").select(["visit_id", "digest", "bundle"]).execute();
  rows.revisions = sorted(revisions);
  const files = await db.selectFrom("files").select("visit_id").execute();
  const visits = revisions.map(({ visit_id }) => visit_id).sort();
  const counts = [rows.visits?.length, files.length, rows.entries?.length];
  const expected = [visits.length, visits.length, entriesEach * visits.length];
  if (counts.join() !== expected.join())
    throw new Error(`Expected ${expected} visits, files and entries, found ${counts}.`);
  return { visits, rows };
}

function sorted(rows: readonly object[]): string[] {
  return rows.map((row) => JSON.stringify(row)).sort();
}
