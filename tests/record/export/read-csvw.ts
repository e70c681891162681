import { parse } from "csv-parse/sync";
import { z } from "zod";

/** What the tests read of CSV on the Web metadata (W3C Recommendation "Metadata Vocabulary for Tabular Data", 17 December 2015). */
export const Metadata = z.object({
  "@context": z.tuple([z.literal("http://www.w3.org/ns/csvw"), z.strictObject({ "@language": z.string() })]),
  url: z.string(),
  dialect: z.strictObject({
    encoding: z.literal("utf-8"),
    delimiter: z.string().length(1),
    quoteChar: z.string().length(1),
    doubleQuote: z.literal(true),
    header: z.literal(true),
    lineTerminators: z.tuple([z.string()]),
    trim: z.literal(false),
  }),
  tableSchema: z.strictObject({
    columns: z.array(
      z.strictObject({
        // Section 5.6: a name is a URI template variable.
        name: z.string().regex(/^[A-Za-z0-9_]+$/),
        titles: z.string(),
        "dc:title": z.string().min(1),
        "dc:description": z.string().min(1),
        datatype: z.union([z.string(), z.strictObject({ base: z.string(), format: z.string() })]),
        required: z.boolean(),
        "schema:unitCode": z.string().optional(),
      }),
    ),
    primaryKey: z.array(z.string()).min(1),
  }),
});

export type Value = string | number | boolean | null;

/** Lexical forms of XML Schema 1.1 part 2 (double 3.3.5, integer 3.4.13, boolean 3.3.2, date 3.3.9, dateTime 3.3.7). */
const LEXICAL: Readonly<Record<string, RegExp>> = {
  string: /^[\s\S]*$/,
  double: /^[+-]?(\d+(\.\d*)?|\.\d+)([eE][+-]?\d+)?$/,
  integer: /^[+-]?\d+$/,
  boolean: /^(true|false)$/,
  date: /^\d{4}-\d\d-\d\d$/,
  dateTime: /^\d{4}-\d\d-\d\dT\d\d:\d\d:\d\d(\.\d+)?(Z|[+-]\d\d:\d\d)$/,
};

/**
 * Reads a CSV file by its metadata alone: cells as values of their datatypes. Throws where the file is not what the metadata
 * says. The CSV itself is read by csv-parse, which shares no code with what wrote it.
 */
export function readCsvw(csv: string | Uint8Array, metadata: string): Record<string, Value>[] {
  const { dialect, tableSchema } = Metadata.parse(JSON.parse(metadata));
  const [header = [], ...records]: string[][] = parse(Buffer.from(csv), {
    bom: true,
    delimiter: dialect.delimiter,
    quote: dialect.quoteChar,
    escape: dialect.quoteChar,
    record_delimiter: dialect.lineTerminators,
    relax_column_count: false,
  });
  const { columns, primaryKey } = tableSchema;
  const titles = columns.map((column) => column.titles);
  if (JSON.stringify(header) !== JSON.stringify(titles)) throw new Error(`header ${header.join()}`);
  const keys = new Set<string>();
  return records.map((record, row) => {
    const cells = columns.map(({ name, datatype, required }, place) => {
      const text = record[place] ?? "";
      const at = `row ${row + 1}, ${name}: ${JSON.stringify(text)}`;
      if (text === "") {
        if (required) throw new Error(`${at} is required`);
        return [name, null] as const;
      }
      const base = typeof datatype === "string" ? datatype : datatype.base;
      if (!LEXICAL[base]?.test(text)) throw new Error(`${at} is no ${base}`);
      if (typeof datatype !== "string" && !new RegExp(`^(?:${datatype.format})$`).test(text))
        throw new Error(`${at} does not fit ${datatype.format}`);
      return [name, valued(base, text)] as const;
    });
    const read: Record<string, Value> = Object.fromEntries(cells);
    const key = JSON.stringify(primaryKey.map((name) => read[name]));
    if (keys.has(key)) throw new Error(`row ${row + 1}: ${key} was there before`);
    keys.add(key);
    return read;
  });
}

function valued(base: string, text: string): Value {
  if (base === "double" || base === "integer") return Number(text);
  return base === "boolean" ? text === "true" : text;
}
