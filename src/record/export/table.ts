import type { Visit } from "../../visit/visit.ts";
import { type DoneMarks, NONE_DONE } from "./done-marks.ts";

/** One cell; null where there is nothing to say, never zero. */
export type Cell = string | number | boolean | null;

/** Datatypes by their names in XML Schema, as CSV on the Web uses them. */
export type Datatype = "string" | "double" | "integer" | "boolean" | "date" | "dateTime";

/** What a column is: enough for another program to read it. */
export interface ColumnAbout {
  /** Letters, digits and underscores. */
  readonly name: string;
  /** For people. */
  readonly title: string;
  readonly description: string;
  readonly datatype: Datatype;
  /** UCUM code of all its values; left out where there is none, or where another column gives it row by row. */
  readonly unit?: string;
  /** Every value that it can have, where these are few. */
  readonly oneOf?: readonly string[];
  /** Never empty. */
  readonly required?: boolean;
}

export interface Column<Row> extends ColumnAbout {
  readonly of: (row: Row) => Cell;
}

/** A tidy table of visits: a row an observation, a column a variable. */
export interface Table {
  readonly name: string;
  readonly title: string;
  readonly description: string;
  readonly columns: readonly ColumnAbout[];
  /** Names of the columns that together tell a row from all others. */
  readonly key: readonly string[];
  /** Cells in the order of the columns; visits in the order given; `done` by default none. Pure, never throws for a sound visit. */
  readonly rows: (visits: readonly Visit[], done?: DoneMarks) => Iterable<readonly Cell[]>;
}

/** A table of what `rowsOf` finds in each visit; ids come last, whatever the order given. */
export function table<Row>(
  about: Omit<Table, "columns" | "rows"> & {
    readonly columns: readonly Column<Row>[];
    readonly rowsOf: (visit: Visit, done: DoneMarks) => Iterable<Row>;
  },
): Table {
  const { rowsOf, ...rest } = about;
  // Whoever opens it sees what he can read first.
  const isId = ({ name }: ColumnAbout) => name.endsWith("_id");
  const columns = [...about.columns.filter((each) => !isId(each)), ...about.columns.filter(isId)];
  return {
    ...rest,
    columns: columns.map(({ of, ...column }) => column),
    *rows(visits, done = NONE_DONE) {
      for (const visit of visits)
        for (const row of rowsOf(visit, done)) yield columns.map(({ of }) => of(row));
    },
  };
}
