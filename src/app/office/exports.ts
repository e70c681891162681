import type { OfficeStore } from "../../device/office/store.ts";
import { calendarOf } from "../../record/export/calendar.ts";
import { csvPieces } from "../../record/export/csv.ts";
import type { DoneMarks } from "../../record/export/done-marks.ts";
import type { Table } from "../../record/export/table.ts";
import { TABLES } from "../../record/export/tables.ts";
import { type WorkbookSheet, workbookOf } from "../../record/export/workbook.ts";
import type { Visit } from "../../visit/visit.ts";
import type { ExportKind } from "./export-kinds.ts";

/** What exports are made from and with. */
export interface ExportWorld {
  readonly store: Pick<OfficeStore, "standing" | "done">;
  readonly visitOf: (text: string) => Visit;
  /** ISO 8601. */
  readonly now: () => string;
  readonly workbookBytes: (sheets: readonly WorkbookSheet[]) => Promise<Uint8Array>;
}

/** So many visits are read together. */
const TOGETHER = 100;

/** The file of an export of what stands of visits, in their order. Rejects where the store does, and where the file cannot be made. */
export async function exported(what: ExportKind, ids: readonly string[], world: ExportWorld): Promise<Blob> {
  switch (what) {
    case "readings":
    case "notes":
      return new Blob(await rows(TABLES[what], ids, world), { type: "text/csv;charset=utf-8" });
    case "workbook":
      return workbook(await all(ids, world), world);
    case "calendar": {
      const text = calendarOf(await all(ids, world), world.now(), await doneIn(world));
      return new Blob([text], { type: "text/calendar;charset=utf-8" });
    }
    case "bundles": {
      const lines: string[] = [];
      for await (const texts of parts(ids, world)) lines.push(...texts.map((text) => `${text}\n`));
      return new Blob(lines, { type: "application/jsonl" });
    }
  }
}

/** The texts of visits, some at a time. */
async function* parts(
  ids: readonly string[],
  { store }: Pick<ExportWorld, "store">,
): AsyncGenerator<readonly string[]> {
  for (let from = 0; from < ids.length; from += TOGETHER)
    yield await store.standing(ids.slice(from, from + TOGETHER));
}

async function all(ids: readonly string[], world: ExportWorld): Promise<Visit[]> {
  const visits: Visit[] = [];
  for await (const texts of parts(ids, world)) visits.push(...texts.map(world.visitOf));
  return visits;
}

/** Some visits at a time; the names of the columns once. */
async function rows(table: Table, ids: readonly string[], world: ExportWorld): Promise<string[]> {
  const done = await doneIn(world);
  const [head = ""] = csvPieces(table, []);
  const pieces = [head];
  for await (const texts of parts(ids, world)) {
    const [, ...more] = csvPieces(table, texts.map(world.visitOf), done);
    pieces.push(...more);
  }
  return pieces;
}

async function doneIn({ store }: Pick<ExportWorld, "store">): Promise<DoneMarks> {
  return new Map((await store.done()).map((mark) => [mark.key, mark]));
}

async function workbook(visits: readonly Visit[], world: ExportWorld): Promise<Blob> {
  const made = workbookOf(visits, await doneIn(world));
  if (!made.ok) throw new Error(made.problem);
  const bytes = new Uint8Array(await world.workbookBytes(made.sheets));
  return new Blob([bytes], {
    type: "application/vnd.openxmlformats-officedocument.spreadsheetml.sheet",
  });
}
