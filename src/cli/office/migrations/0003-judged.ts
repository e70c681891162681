import { type Kysely, type Migration, sql } from "kysely";

/** By which judgement a visit's rows were made. Those that are in the book from before are of an older one than any. */
export const judged: Migration = {
  async up(db: Kysely<unknown>): Promise<void> {
    await sql`alter table visits add column judged integer not null default 0`.execute(db);
  },
};
