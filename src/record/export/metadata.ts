import { HARMLESS_RULE } from "./formula.ts";
import type { ColumnAbout, Table } from "./table.ts";

/** What the name of a CSV file gets behind it for that of its metadata ("Model for Tabular Data", section 5.3). */
export const METADATA_ENDING = "-metadata.json";

/**
 * The column dictionary of a table as CSV on the Web metadata (W3C Recommendation "Metadata Vocabulary for Tabular Data", 17
 * December 2015): another program can read the CSV file `url` with it, types and all. Units are UCUM codes.
 */
export function metadataOf(table: Table, url: string): string {
  const metadata = {
    "@context": ["http://www.w3.org/ns/csvw", { "@language": "en" }],
    url,
    "dc:title": table.title,
    "dc:description": table.description,
    notes: [{ "dc:description": HARMLESS_RULE }],
    dialect: {
      encoding: "utf-8",
      delimiter: ",",
      quoteChar: '"',
      doubleQuote: true,
      header: true,
      lineTerminators: ["\r\n"],
      trim: false,
    },
    tableSchema: { columns: table.columns.map(columnOf), primaryKey: table.key },
  };
  return `${JSON.stringify(metadata, null, 2)}\n`;
}

function columnOf({ name, title, description, datatype, unit, oneOf, required = false }: ColumnAbout) {
  return {
    name,
    titles: name,
    "dc:title": title,
    "dc:description": description,
    datatype: oneOf ? { base: datatype, format: oneOf.map(literally).join("|") } : datatype,
    required,
    ...(unit === undefined ? {} : { "schema:unitCode": unit }),
  };
}

/** A value as a regular expression that only it fits. */
function literally(value: string): string {
  return value.replace(/[.*+?^${}()|[\]\\/]/g, "\\$&");
}
