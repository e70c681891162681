import { NOTES } from "./notes.ts";
import { READINGS } from "./readings.ts";
import type { Table } from "./table.ts";
import { TURNS } from "./turns.ts";
import { VISITS } from "./visits.ts";

/** Every table, in the order in which a workbook has them. */
export const TABLES = {
  visits: VISITS,
  readings: READINGS,
  turns: TURNS,
  notes: NOTES,
} as const satisfies Record<string, Table>;
export type TableName = keyof typeof TABLES;
