import { type Kysely, type Migration, sql } from "kysely";

/** The technician's licence and firm. Bundles that are in the book from before name neither. */
export const licenceAndFirm: Migration = {
  async up(db: Kysely<unknown>): Promise<void> {
    for (const column of ["licence", "firm"])
      await sql`alter table visits add column ${sql.ref(column)} text not null default ''`.execute(db);
  },
};
