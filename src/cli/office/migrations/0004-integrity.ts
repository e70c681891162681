import { type Kysely, type Migration, sql } from "kysely";

/** Whether a visit's log is whole, and by which key it was signed. Those in the book from before came without links. */
export const integrity: Migration = {
  async up(db: Kysely<unknown>): Promise<void> {
    await sql`alter table visits add column integrity text not null default 'unsigned'`.execute(db);
    await sql`alter table visits add column signed_by text`.execute(db);
  },
};
