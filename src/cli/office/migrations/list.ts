import type { Migration } from "kysely";
import { book } from "./0001-book.ts";
import { licenceAndFirm } from "./0002-licence-and-firm.ts";
import { judged } from "./0003-judged.ts";
import { integrity } from "./0004-integrity.ts";

/** Every change of the schema, in order. What was released is never changed: a later change is a new file. */
export const MIGRATIONS: Readonly<Record<string, Migration>> = {
  "0001-book": book,
  "0002-licence-and-firm": licenceAndFirm,
  "0003-judged": judged,
  "0004-integrity": integrity,
};
