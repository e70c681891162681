import { CompiledQuery, type Kysely, sql, type Transaction } from "kysely";
import { COPY } from "./copy.ts";
import type { Sound } from "./judged.ts";
import { copyLines, type SentRows } from "./sent.ts";
import { type Kept, type Settled, settle } from "./settle.ts";
import { COLUMNS, DERIVED, type RevisionTable, type TableName, type Tables } from "./tables.ts";
import { isPassing } from "./trouble.ts";

/** What a batch changed. */
export interface Written {
  /** Visits that were not in the book. */
  readonly visits: number;
  /** Revisions of visits that were. */
  readonly revisions: number;
  /** Bundles that the book had, in another file. */
  readonly same: number;
}

const MOST_TRIES = 5;

/** Writes bundles in one transaction: all of them, or where it throws none. `now` is ISO 8601. */
export function writeBatch(db: Kysely<Tables>, batch: readonly Sound[], now: string): Promise<Written> {
  return inTransaction(db, now, (tx) => write(tx, batch, now));
}

/** One writes at a time, however many load: what `work` reads stays so until it ends. Tried again where the server asks for that. */
export async function inTransaction<T>(
  db: Kysely<Tables>,
  now: string,
  work: (tx: Transaction<Tables>) => Promise<T>,
): Promise<T> {
  for (let tries = 1; ; tries += 1) {
    try {
      return await db.transaction().execute(async (tx) => {
        await sql`update latch set written_at = ${now} where name = 'write'`.execute(tx);
        return work(tx);
      });
    } catch (error) {
      if (tries === MOST_TRIES || !isPassing(error)) throw error;
    }
  }
}

async function write(tx: Transaction<Tables>, batch: readonly Sound[], now: string): Promise<Written> {
  const incoming = byVisit(batch);
  const kept = await revisionsIn(tx, [...incoming.keys()]);
  const settled: Settled[] = [];
  const fresh: Sound[] = [];
  for (const [visitId, sounds] of incoming) {
    const known = kept.get(visitId) ?? [];
    const [first, ...others] = sounds.filter(({ digest }) => !known.includes(digest));
    if (!first) continue;
    const one = await settle([first, ...others], known.length === 0 ? [] : await bundlesOf(tx, visitId));
    fresh.push(...one.added);
    settled.push(one);
  }
  const anew = settled.filter(({ visitId, rows }) => rows !== null && kept.has(visitId));
  await replaceRows(
    tx,
    anew.map(({ visitId }) => visitId),
    settled.flatMap(({ rows }) => rows ?? []),
  );
  for (const { visitId, revisions, forked } of settled.filter((each) => each.revisions > 1))
    await tx.updateTable("visits").set({ revisions, forked }).where("visit_id", "=", visitId).execute();
  await copy(tx, "revisions", [
    copyLines(
      "revisions",
      fresh.map((sound) => revisionRow(sound, now)),
    ),
  ]);
  await insertFiles(
    tx,
    batch.map((sound) => fileRow(sound, now)),
  );
  const visits = settled.filter(({ visitId }) => !kept.has(visitId)).length;
  return { visits, revisions: fresh.length - visits, same: batch.length - fresh.length };
}

/** Writes the rows of visits, in place of those that are there of the visits named. */
export async function replaceRows(
  tx: Transaction<Tables>,
  ids: string[],
  rows: readonly SentRows[],
): Promise<void> {
  for (const table of DERIVED) {
    await remove(tx, table, ids);
    await copy(
      tx,
      table,
      rows.map((sent) => sent[table]),
    );
  }
}

/** The bundles of each visit, each revision once. */
function byVisit(batch: readonly Sound[]): Map<string, Sound[]> {
  const visits = new Map<string, Sound[]>();
  for (const sound of batch) {
    const sounds = visits.get(sound.visitId) ?? [];
    visits.set(sound.visitId, sounds);
    if (!sounds.some(({ digest }) => digest === sound.digest)) sounds.push(sound);
  }
  return visits;
}

/** The digests that the book has of each of these visits; a visit that it does not have is not among them. */
async function revisionsIn(tx: Transaction<Tables>, ids: string[]): Promise<Map<string, string[]>> {
  const rows = await tx
    .selectFrom("revisions")
    .select(["visit_id", "digest"])
    .where("visit_id", "=", sql<string>`any(${ids})`)
    .execute();
  const digests = new Map<string, string[]>();
  for (const { visit_id, digest } of rows) digests.set(visit_id, [...(digests.get(visit_id) ?? []), digest]);
  return digests;
}

/** All revisions of a visit, and which of them stands. */
function bundlesOf(tx: Transaction<Tables>, visitId: string): Promise<Kept[]> {
  return tx
    .selectFrom("revisions")
    .innerJoin("visits", "visits.visit_id", "revisions.visit_id")
    .select(["digest", "bundle", sql<boolean>`digest = revision`.as("stands")])
    .where("revisions.visit_id", "=", visitId)
    .execute();
}

async function remove(tx: Transaction<Tables>, table: TableName, ids: string[]): Promise<void> {
  if (ids.length > 0) await sql`delete from ${sql.table(table)} where visit_id = any(${ids})`.execute(tx);
}

/** Rows of a table that are not there yet, all in one statement. */
async function copy(tx: Transaction<Tables>, table: TableName, lines: readonly string[]): Promise<void> {
  const rows = lines.join("");
  if (rows === "") return;
  const columns = Object.keys(COLUMNS[table]).join(", ");
  await tx.executeQuery(CompiledQuery.raw(`${COPY}${table} (${columns}) from stdin`, [rows]));
}

/** The files of a batch; one that is there already is left as it is. */
async function insertFiles(tx: Transaction<Tables>, files: Tables["files"][]): Promise<void> {
  await tx
    .insertInto("files")
    .values(files)
    .onConflict((conflict) => conflict.doNothing())
    .execute();
}

function revisionRow({ visitId, digest, entries, endedAt, bundle }: Sound, now: string): RevisionTable {
  return { visit_id: visitId, digest, entries, ended_at: endedAt, loaded_at: now, bundle };
}

function fileRow({ sha256, visitId, digest, name, bytes }: Sound, now: string): Tables["files"] {
  return { sha256, visit_id: visitId, digest, name, bytes, loaded_at: now };
}
