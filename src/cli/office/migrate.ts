import {
  type Kysely,
  type MigrationLockOptions,
  Migrator,
  PostgresAdapter,
  PostgresDialect,
  sql,
} from "kysely";
import type { Purpose } from "./book.ts";
import { MIGRATIONS } from "./migrations/list.ts";
import type { Tables } from "./tables.ts";
import { Trouble } from "./trouble.ts";

const TABLE = "book_migrations";

/** Brings a book up to date before it is written to; one that is to be read has to be, and one from a newer program is left alone. */
export async function migrate(db: Kysely<Tables>, purpose: Purpose, shown: string): Promise<void> {
  const known = Object.keys(MIGRATIONS);
  const done = await doneIn(db);
  const newer = done.find((name) => !known.includes(name));
  if (newer !== undefined)
    throw new Trouble(
      `${shown}: expected an office book that this program knows, found one of a newer program (${JSON.stringify(newer)}).`,
    );
  if (done.length === known.length) return;
  if (purpose === "read")
    throw new Trouble(
      done.length === 0
        ? `${shown}: expected an office book, found none; "office load" makes one.`
        : `${shown}: expected an office book that is up to date, found an older one; "office load" brings it up to date.`,
    );
  const migrator = new Migrator({
    db,
    provider: { getMigrations: async () => ({ ...MIGRATIONS }) },
    migrationTableName: TABLE,
    migrationLockTableName: `${TABLE}_lock`,
  });
  const { error } = await migrator.migrateToLatest();
  if (error !== undefined) throw error;
}

async function doneIn(db: Kysely<Tables>): Promise<string[]> {
  try {
    const { rows } = await sql<{ name: string }>`select name from ${sql.table(TABLE)} order by name`.execute(
      db,
    );
    return rows.map(({ name }) => name);
  } catch (error) {
    // No such table.
    if (error instanceof Error && "code" in error && error.code === "42P01") return [];
    throw error;
  }
}

/** PostgreSQL as the query builder knows it, but for servers, too, that lack advisory locks: there one migrates at a time at his own risk. */
export class BookDialect extends PostgresDialect {
  override createAdapter(): PostgresAdapter {
    return new BookAdapter();
  }
}

class BookAdapter extends PostgresAdapter {
  override acquireMigrationLock(db: Kysely<unknown>, options: MigrationLockOptions): Promise<void> {
    return whereKnown(() => super.acquireMigrationLock(db, options));
  }

  override releaseMigrationLock(db: Kysely<unknown>, options: MigrationLockOptions): Promise<void> {
    return whereKnown(() => super.releaseMigrationLock(db, options));
  }
}

/** SQLSTATE: feature not supported, undefined function. */
const UNKNOWN: readonly unknown[] = ["0A000", "42883"];

async function whereKnown(run: () => Promise<void>): Promise<void> {
  try {
    await run();
  } catch (error) {
    if (!(error instanceof Error && "code" in error && UNKNOWN.includes(error.code))) throw error;
  }
}
