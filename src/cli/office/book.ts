import { Kysely, type PostgresPool, sql } from "kysely";
import { openEmbedded } from "./embedded.ts";
import { BookDialect, migrate } from "./migrate.ts";
import { openServer } from "./server.ts";
import type { Tables } from "./tables.ts";
import type { Target } from "./target.ts";

/** The office's book, open. */
export interface Book {
  readonly db: Kysely<Tables>;
  /** For people: "embedded", "PostgreSQL 15.18". */
  readonly engine: string;
  /** After much was written. */
  tidy(): Promise<void>;
  close(): Promise<void>;
}

/** What there is to talk to, whichever engine it is. */
export interface Engine {
  readonly pool: PostgresPool;
  readonly name: string;
  /** Whether it counts rows for its planner by itself, as servers do. */
  readonly countsRows: boolean;
  close(): Promise<void>;
}

/** For writing a book is made where there is none, and brought up to date; for reading it has to be there. */
export type Purpose = "write" | "read";

/** Opens a book. Throws what `troubleOf` has sentences for. */
export async function openBook(target: Target, purpose: Purpose): Promise<Book> {
  const engine =
    target.kind === "folder" ? await openEmbedded(target.path, purpose) : await openServer(target);
  const db = new Kysely<Tables>({ dialect: new BookDialect({ pool: engine.pool }) });
  try {
    await migrate(db, purpose, target.shown);
  } catch (error) {
    await engine.close().catch(() => {});
    throw error;
  }
  return {
    db,
    engine: engine.name,
    tidy: async () => {
      if (!engine.countsRows) await sql`analyze`.execute(db);
    },
    close: () => engine.close(),
  };
}
