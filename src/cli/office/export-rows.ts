import { type Kysely, sql } from "kysely";
import type { Exported } from "./flags.ts";
import { COLUMNS, type SqlType, type TableName, type Tables, type VisitTable } from "./tables.ts";

/** A column of an exported table. */
export interface ExportedColumn {
  readonly name: string;
  readonly type: SqlType;
}

export type Cell = string | number | boolean | null | readonly string[];
export type ExportedRow = Readonly<Record<string, Cell>>;

interface Export {
  readonly table: TableName;
  /** The primary key, by which it is gone through. */
  readonly key: readonly string[];
  /** What is put beside each row of the visit that it is of. */
  readonly ofVisit: readonly (keyof VisitTable)[];
}

const OF_VISIT = [
  "appliance",
  "appliance_key",
  "place",
  "technician",
  "started_on",
  "fuel",
  "sheet",
] as const;

const EXPORTS: Readonly<Record<Exported, Export>> = {
  readings: { table: "readings", key: ["visit_id", "seq"], ofVisit: OF_VISIT },
  visits: { table: "visits", key: ["visit_id"], ofVisit: [] },
  adjustments: { table: "adjustments", key: ["visit_id", "seq"], ofVisit: OF_VISIT },
  "follow-ups": { table: "follow_ups", key: ["visit_id", "seq", "place"], ofVisit: OF_VISIT },
};

/** The columns of an exported table, with the prefix `visit_` for those of the visit. */
export function columnsOf(exported: Exported): readonly ExportedColumn[] {
  const { table, ofVisit } = EXPORTS[exported];
  const own = Object.entries(COLUMNS[table]).map(([name, type]) => ({ name, type }));
  return [...own, ...ofVisit.map((name) => ({ name: `visit_${name}`, type: COLUMNS.visits[name] }))];
}

export async function isEmpty(db: Kysely<Tables>, exported: Exported): Promise<boolean> {
  const { rows } = await sql`select 1 from ${sql.table(EXPORTS[exported].table)} limit 1`.execute(db);
  return rows.length === 0;
}

const PAGE = 5000;

/** All rows of an exported table in the order of its key, a page at a time. */
export async function* rowsOf(db: Kysely<Tables>, exported: Exported): AsyncGenerator<ExportedRow> {
  const { table, key, ofVisit } = EXPORTS[exported];
  const own = Object.keys(COLUMNS[table]).map((name) => sql.ref(`t.${name}`));
  const visit = ofVisit.map((name) => sql`${sql.ref(`v.${name}`)} as ${sql.ref(`visit_${name}`)}`);
  const keys = sql.join(key.map((name) => sql.ref(`t.${name}`)));
  // A page of rows first, then what is beside them: the other way round every page would join everything.
  const beside = ofVisit.length === 0 ? sql`` : sql`join visits as v on v.visit_id = t.visit_id`;
  const order = sql.join(key.map((name) => sql.ref(name)));
  for (let last: ExportedRow | undefined; ; ) {
    const after = last
      ? sql`where (${order}) > (${sql.join(key.map((name) => sql`${last?.[name]}::${sql.raw(typeOf(name))}`))})`
      : sql``;
    const { rows } = await sql<ExportedRow>`select ${sql.join([...own, ...visit])}
      from (select * from ${sql.table(table)} ${after} order by ${order} limit ${sql.lit(PAGE)}) as t
      ${beside} order by ${keys}`.execute(db);
    yield* rows;
    last = rows.at(-1);
    if (rows.length < PAGE) return;
  }
}

function typeOf(key: string): SqlType {
  return key === "visit_id" ? "text" : "integer";
}
