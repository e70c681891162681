import { basename } from "node:path";
import { bundleLines } from "../../record/export/bundles.ts";
import { calendarOf } from "../../record/export/calendar.ts";
import { csvPieces } from "../../record/export/csv.ts";
import { followUpsOf } from "../../record/export/follow-up.ts";
import { METADATA_ENDING, metadataOf } from "../../record/export/metadata.ts";
import { TABLES, type TableName } from "../../record/export/tables.ts";
import { cutNotice, workbookOf } from "../../record/export/workbook.ts";
import type { Visit } from "../../visit/visit.ts";
import type { WholeFile } from "./whole-files.ts";
import { workbookBytes } from "./workbook.ts";

/** What is exported, to where. */
export interface Order {
  readonly visits: readonly Visit[];
  readonly to: string;
  /** Of a CSV file. */
  readonly table: TableName;
  /** ISO 8601. */
  readonly now: string;
}

export type Made =
  | {
      readonly ok: true;
      readonly files: readonly WholeFile[];
      /** What a person should know of what was made, in sentences. */
      readonly notices: readonly string[];
    }
  | { readonly ok: false; readonly problem: string };

/** A kind of export, by how its file's name ends. */
export interface Kind {
  readonly ending: string;
  /** All files that it writes. */
  readonly paths: (to: string) => readonly string[];
  readonly make: (order: Order) => Made | Promise<Made>;
}

const alone = (to: string): readonly string[] => [to];

const made = (files: readonly WholeFile[], notices: readonly string[] = []): Made => ({
  ok: true,
  files,
  notices,
});

/** Every kind, in the order in which the usage lists them. */
export const KINDS: readonly Kind[] = [
  {
    ending: ".csv",
    paths: (to) => [to, to + METADATA_ENDING],
    make: ({ visits, to, table }) =>
      made([
        { path: to, pieces: csvPieces(TABLES[table], visits) },
        { path: to + METADATA_ENDING, pieces: [metadataOf(TABLES[table], encodeURIComponent(basename(to)))] },
      ]),
  },
  {
    ending: ".xlsx",
    paths: alone,
    make: async ({ visits, to }) => {
      const workbook = workbookOf(visits);
      if (!workbook.ok) return workbook;
      const notice = cutNotice(workbook.cut);
      const bytes = await workbookBytes(workbook.sheets);
      return made([{ path: to, pieces: [bytes] }], notice === null ? [] : [notice]);
    },
  },
  {
    ending: ".ics",
    paths: alone,
    make: ({ visits, to, now }) =>
      followUpsOf(visits).length === 0
        ? { ok: false, problem: "Expected at least one follow-up in the notes, found none." }
        : made([{ path: to, pieces: [calendarOf(visits, now)] }]),
  },
  {
    ending: ".jsonl",
    paths: alone,
    make: ({ visits, to }) => made([{ path: to, pieces: bundleLines(visits) }]),
  },
];
