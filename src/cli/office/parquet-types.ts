import type { parquetWriteRows, SchemaElement } from "hyparquet-writer";
import type { Cell, ExportedColumn } from "./export-rows.ts";
import type { SqlType } from "./tables.ts";

type Column = Parameters<typeof parquetWriteRows>[0]["columns"][number];
type Element = Omit<SchemaElement, "name" | "repetition_type">;

/** Apache Parquet's types for those of the book: times are milliseconds UTC, days count from 1970-01-01. */
const ELEMENTS: Readonly<Record<SqlType, Element>> = {
  text: { type: "BYTE_ARRAY", converted_type: "UTF8" },
  integer: { type: "INT32" },
  "double precision": { type: "DOUBLE" },
  boolean: { type: "BOOLEAN" },
  timestamptz: {
    type: "INT64",
    converted_type: "TIMESTAMP_MILLIS",
    logical_type: { type: "TIMESTAMP", isAdjustedToUTC: true, unit: "MILLIS" },
  },
  date: { type: "INT32", converted_type: "DATE" },
  jsonb: { type: "BYTE_ARRAY", converted_type: "JSON" },
};

export function parquetColumn({ name }: ExportedColumn): Column {
  return { name, nullable: true };
}

export function parquetSchema(columns: readonly ExportedColumn[]): SchemaElement[] {
  return [
    { name: "root", num_children: columns.length },
    ...columns.map(({ name, type }) => ({ name, repetition_type: "OPTIONAL" as const, ...ELEMENTS[type] })),
  ];
}

/** A value as the writer takes it. */
export function parquetValue(type: SqlType, value: Cell): unknown {
  if (typeof value === "string" && (type === "timestamptz" || type === "date")) return new Date(value);
  return value;
}
